import { type Finding, type HouseRule, lineAt } from '../source-tree.ts';

/** Put together from parts, so that this file does not break its own rule. */
const MARKERS = ['TO' + 'DO', 'FIX' + 'ME', 'XX' + 'X', 'HA' + 'CK'];
const MARKER = new RegExp(`\\b(${MARKERS.join('|')})\\b`, 'g');

/** No marker for work that is left over: it is done, or it is an issue. */
export const noLeftovers: HouseRule = (files) =>
  files
    .filter((file) => file.path !== 'package-lock.json')
    .flatMap((file) =>
      Array.from(file.text.matchAll(MARKER), (match): Finding => {
        return { path: file.path, line: lineAt(file.text, match.index), message: `${match[0]} on main; do it or file an issue` };
      }),
    );
