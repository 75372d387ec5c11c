/**
 * For questions of which only the last one asked counts, whichever is answered first. Each call begins one, and gives what tells
 * whether it is still the last.
 */
export interface OnlyLatest {
  (): () => boolean;
  /** Begins none; gives what tells whether none has been begun since. */
  look(): () => boolean;
}

export function onlyLatest(): OnlyLatest {
  let asked = 0;
  const look = () => {
    const last = asked;
    return () => last === asked;
  };
  return Object.assign(
    () => {
      asked += 1;
      return look();
    },
    { look },
  );
}
