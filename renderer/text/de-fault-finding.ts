import type { enFaultFinding } from './en-fault-finding.ts';

/** Words of fault finding, in German. */
export const deFaultFinding: Record<keyof typeof enFaultFinding, string> = {
  'signs.regulator': 'Gas {bar}',
  'signs.torch': 'am Brenner {bar}',
  'signs.no-flow': 'am Brenner: kein Durchfluss',
  'signs.parts-new': 'Brennerteile wie neu',
  'signs.parts': 'Brennerteile: {spent} der Standzeit verbraucht',

  'sign.soft': 'Der Lichtbogen ist weich und breit.',
  'sign.wandering': 'Der Lichtbogen wandert.',
  'sign.aslant': 'Der Lichtbogen brennt nach einer Seite weg.',
  'sign.double-arc': 'Vorn im Brenner brennt ein zweiter Lichtbogen.',
  'sign.pilot-only': 'Der Pilotlichtbogen brennt über dem Metall und springt nicht über.',
  'sign.no-pilot': 'Gas strömt, aber kein Pilotlichtbogen zündet.',
  'sign.drops-out': 'Der Lichtbogen fiel bei gedrücktem Brennertaster aus.',
  'sign.hard-start': 'Es brauchte mehr als einen Druck auf den Taster bis zum Lichtbogen.',

  'diagnosis.title': 'Was stimmte an dieser Anlage nicht?',
  'diagnosis.seen': 'Was sich gezeigt hat',
  'diagnosis.seen-none': 'Nichts, was sich in Worte fassen ließ. Denk an die Gaswerte und an den Schnitt.',
  'diagnosis.cause': 'Die Ursache',
  'diagnosis.remedy': 'Was zu tun ist',
  'diagnosis.say': 'Das ist meine Antwort',
  'diagnosis.say-waiting': 'Wähl Ursache und Abhilfe',

  'fault-cause.low-gas': 'Gasdruck zu niedrig eingestellt',
  'fault-cause.wet-gas': 'Wasser im Gas',
  'fault-cause.worn-electrode': 'Elektrode verschlissen',
  'fault-cause.wrong-part': 'Ein Brennerteil, das nicht zu dieser Arbeit gehört',
  'fault-cause.poor-clamp': 'Masseklemme auf schlechter Oberfläche',
  'fault-cause.wrong-mode': 'Stromquelle auf eine andere Betriebsart gestellt',
  'fault-cause.damaged-hose': 'Gasschlauch beschädigt',

  'remedy.raise-pressure': 'Druckregler höher stellen',
  'remedy.drain-water': 'Wasserabscheider leeren und das Gas trocknen',
  'remedy.change-electrode': 'Neue Elektrode einsetzen',
  'remedy.fit-right-part': 'Das Teil einsetzen, das zur Arbeit gehört',
  'remedy.move-clamp': 'Die Klemme an blankes Metall setzen',
  'remedy.set-right-mode': 'Die Betriebsart für die Arbeit einstellen',
  'remedy.replace-hose': 'Den Schlauch ersetzen',
  'remedy.raise-current': 'Mehr Strom einstellen',
  'remedy.hold-closer': 'Den Brenner näher halten',
  'remedy.travel-slower': 'Langsamer fahren',
};
