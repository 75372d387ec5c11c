import type { ErrorCode } from '../../electron/contract.ts';

/** What a refusal of the host means, by its code, in German. What it says in its own words follows in English. */
export const deRefusals: Record<ErrorCode, string> = {
  'bad-request': 'Diese Eingabe passt nicht.',
  forbidden: 'Das ist hier nicht erlaubt.',
  'wrong-passphrase': 'Die Passphrase stimmt nicht.',
  wait: 'Zu viele falsche Passphrasen: Warte ein wenig.',
  'not-found': 'Das gibt es nicht oder nicht mehr.',
  conflict: 'Das passt nicht zu dem, was schon da ist.',
  'missing-chunks': 'Vom Lauf fehlt ein Stück.',
  'bad-file': 'Die Datei ist nicht in Ordnung.',
  'newer-version': 'Das stammt von einem neueren Kerfhand.',
  'too-large': 'Das ist zu groß.',
  'disk-full': 'Der Datenträger ist voll.',
  'read-only': 'Hier kann nicht geschrieben werden.',
  'in-use': 'Ein anderes Programm benutzt die Aufzeichnungen.',
  damaged: 'Die Aufzeichnungen sind beschädigt.',
  internal: 'Im Programm ist etwas schiefgegangen.',
};
