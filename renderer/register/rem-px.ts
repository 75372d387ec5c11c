/** Pixels of so many root ems, now: layouts that count in pixels grow with the text. */
export function remPx(rems: number): number {
  return rems * Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
}
