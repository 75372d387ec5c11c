/** Signs that turn the direction of what comes after them (Unicode Standard Annex 9). */
const TURNS = /[\u202A-\u202E\u2066-\u2069]/;
const [LEFT_TO_RIGHT_ISOLATE, FIRST_STRONG_ISOLATE, END_OF_ISOLATE] = ['\u2066', '\u2068', '\u2069'];

/**
 * A text that stands inside a sentence, with what it holds of such signs closed in: it turns nothing but itself. A text without
 * them comes back as it is.
 */
export function setApart(text: string): string {
  if (!TURNS.test(text)) return text;
  let open = 0;
  let closedIn = '';
  for (const sign of text) {
    // An end without a beginning would end what closes the text in.
    if (sign === END_OF_ISOLATE && open === 0) continue;
    if (sign === END_OF_ISOLATE) open--;
    else if (sign >= LEFT_TO_RIGHT_ISOLATE && sign <= FIRST_STRONG_ISOLATE) open++;
    closedIn += sign;
  }
  return FIRST_STRONG_ISOLATE + closedIn + END_OF_ISOLATE.repeat(open + 1);
}
