/** Figures by chance that come out the same every time. */
export interface Figures {
  /** 0 to below 1. */
  next(): number;
  happens(likelihood: number): boolean;
  /** About 0, within three times the given spread. */
  around(spread: number): number;
  whole(from: number, to: number): number;
}

/** @param seed one for each purpose, so that a change in one place does not move all others */
export function figures(seed: number): Figures {
  let state = (seed ^ 0x9e3779b9) >>> 0;
  const next = () => {
    // xorshift32 after a step of a linear congruence: plenty for who comes when.
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    let mixed = state;
    mixed ^= mixed << 13;
    mixed ^= mixed >>> 17;
    mixed ^= mixed << 5;
    return (mixed >>> 0) / 2 ** 32;
  };
  return {
    next,
    happens: (likelihood) => next() < likelihood,
    around: (spread) => (next() + next() + next() + next() + next() + next() - 3) * spread * 1.41,
    whole: (from, to) => from + Math.floor(next() * (to - from + 1)),
  };
}
