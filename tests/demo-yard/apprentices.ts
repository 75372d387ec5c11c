import { type Figures, figures } from './figures.ts';
import type { Bent } from './practice-hand.ts';

/** Somebody who learns: how it begins, how fast it goes, how much is practised, and what goes wrong by habit. */
export interface Apprentice {
  number: number;
  /** 0 = Morning watch, 1 = Noon watch, 2 = Evening watch. */
  group: number;
  /** Skill at the first run, 0 to 1. */
  begins: number;
  /** Share of what is lacking that one run of the same technique takes away. */
  learns: number;
  /** Runs a week. */
  practises: number;
  /** First and last week, 1 to 8. */
  from: number;
  until: number;
  bent: Bent;
}

/** Those who stand out, by number; everybody else is somewhere in the middle. */
const STAND_OUT: Readonly<Record<number, Partial<Omit<Apprentice, 'bent'>> & { bent?: Partial<Bent> }>> = {
  2: { practises: 3.6, learns: 0.2 },
  4: { begins: 0.5, learns: 0.36, bent: { hasty: 0.5, weave: 0.2 } },
  7: { begins: 0.25, learns: 0.1, practises: 2.8, bent: { pace: 1.15 } },
  11: { begins: 0.3, learns: 0.16, practises: 2.6, bent: { heightMm: 3.4 } },
  13: { begins: 0.05, learns: 0.07, practises: 2.8, bent: { hasty: 1.6, weave: 0.9 } },
  15: { practises: 0.7, learns: 0.12 },
  18: { begins: 0.3, learns: 0.1, bent: { leanDeg: 11 } },
  20: { begins: 0.2, learns: 0.12, bent: { pace: -0.95 } },
  22: { from: 1, until: 4 },
  24: { from: 4, begins: 0.15, learns: 0.26, practises: 3 },
};

export function apprentices(): Apprentice[] {
  return Array.from({ length: 24 }, (_, index) => apprentice(index + 1, figures(9000 + index)));
}

function apprentice(number: number, by: Figures): Apprentice {
  const bent: Bent = {
    pace: by.around(0.18),
    heightMm: by.around(0.25),
    leanDeg: by.around(1.6),
    weave: 0.25 + by.next() * 0.5,
    hasty: 0.6 + by.next() * 0.7,
  };
  const plain = {
    number,
    group: (number - 1) % 3,
    begins: 0.08 + by.next() * 0.32,
    learns: 0.12 + by.next() * 0.16,
    practises: 1.7 + by.next() * 0.9,
    from: 1,
    until: 8,
  };
  const { bent: special, ...rest } = STAND_OUT[number] ?? {};
  return { ...plain, ...rest, bent: { ...bent, ...special } };
}
