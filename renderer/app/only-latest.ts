/**
 * For questions of which only the last one asked counts, whichever is answered first. Each call begins one, and gives what tells
 * whether it is still the last.
 */
export function onlyLatest(): () => () => boolean {
  let asked = 0;
  return () => {
    asked += 1;
    const mine = asked;
    return () => mine === asked;
  };
}
