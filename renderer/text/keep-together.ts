/** A unit behind a figure, and the word with it that says no more without it. */
const UNIT = /(\d) (?=(?:mm(?:\/s)?|m|A|V|bar|psi|s|min|degrees?|Grad)(?![A-Za-z])|%)/g;
const RANGE = /(\d)–(?=\d)/g;
const PER_SECOND = /mm\/s/g;

/** The same words, but a line never ends between a figure and its unit ("12 mm"), nor inside a range ("11–23 mm/s"). */
export function keepTogether(words: string): string {
  return words.replace(UNIT, '$1\u00a0').replace(RANGE, '$1–\u2060').replace(PER_SECOND, 'mm/\u2060s');
}
