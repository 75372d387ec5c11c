import type { enCautions } from './en-cautions.ts';

/** Dangers of the real work in German; figures and sources as in the English table, where they are named. */
export const deCautions: Record<keyof typeof enCautions, string> = {
  'start.title': 'Bevor du anfängst',
  'start.lead': 'Kerfhand ist Übung für Hand und Auge. Es befähigt niemanden zum Schneiden.',
  'start.supervised': 'Echtes Blech wird unter Aufsicht geschnitten, durch jemanden, der es lehren darf.',
  'start.manual':
    'Halte dich an die Betriebsanleitung der Maschine vor dir, die Regeln deines Betriebs und die örtlichen Vorschriften. Sagen sie etwas anderes als dieses Programm, haben sie recht.',
  'start.electric': 'Elektroinstallation ist Sache einer zugelassenen Elektrofachkraft.',
  'start.screen': 'Nichts hier ist dunkel, laut oder heiß genug, um die Gefahren zu zeigen. Die Karte jeder Übung nennt sie.',
  'start.go': 'Verstanden',

  'caution.always':
    'Halte dich an die Betriebsanleitung der Maschine, die Regeln deines Betriebs und die örtlichen Vorschriften. Elektroinstallation ist Sache einer zugelassenen Elektrofachkraft.',
  'caution.source': 'Quelle: {source}',

  'caution.electric-shock.name': 'Stromschlag',
  'caution.electric-shock.say':
    'Die Leerlaufspannung ist hoch genug, um zu töten. Trockene Handschuhe, trockener Boden, heile Kabel; abschalten, bevor du Brennerteile berührst.',
  'caution.electric-shock.source': 'die Betriebsanleitung der Maschine; 29 CFR 1910.254',
  'caution.eyes.name': 'Augen und Haut',
  'caution.eyes.say': 'Mindestens Schutzstufe 8, unter 300 A; Haut bedeckt. Fang dunkler an und geh heller, nie unter 8.',
  'caution.eyes.source': '29 CFR 1910.133(a)(5)',
  'caution.fume.name': 'Rauch',
  'caution.fume.say':
    'Halte den Kopf aus der Rauchfahne. Technische Lüftung, wo weniger als 284 m³ (10 000 ft³) auf eine Person kommen oder die Decke unter 5 m (16 ft) hoch ist.',
  'caution.fume.source': '29 CFR 1910.252(c)(2)',
  'caution.coatings.name': 'Beschichtungen und Legierungen',
  'caution.coatings.say':
    'Entfern zuerst Farbe, Zink und Öl. Nichtrostender Stahl setzt Chrom(VI) frei: Der Grenzwert ist 5 µg/m³ über 8 h.',
  'caution.coatings.source': '29 CFR 1910.1026',
  'caution.noise.name': 'Lärm',
  'caution.noise.say': 'Trag Gehörschutz: 90 dBA sind 8 h lang erlaubt, und je 5 dB mehr halbieren die Zeit.',
  'caution.noise.source': '29 CFR 1910.95',
  'caution.fire.name': 'Brand',
  'caution.fire.say':
    'Räum Brennbares im Umkreis von 10,7 m (35 ft) weg. Eine Brandwache bleibt 30 min nach dem letzten Schnitt; viele Betriebe verlangen 60.',
  'caution.fire.source': '29 CFR 1910.252(a)(2)(iii); NFPA 51B für 60 min',
  'caution.compressed-gas.name': 'Druckgas',
  'caution.compressed-gas.say': 'Blas nie Luft auf einen Menschen. Luft zum Reinigen bleibt unter 30 psi (2,1 bar), mit Schutz.',
  'caution.compressed-gas.source': '29 CFR 1910.242(b)',
  'caution.hot-metal.name': 'Heißes Metall',
  'caution.hot-metal.say':
    'Eine Schnittkante brennt noch lange, wenn sie nicht mehr glüht, und das Stück fällt. Halte Füße und Schläuche darunter weg.',
  'caution.hot-metal.source': 'übliche Praxis',
  'caution.closed-container.name': 'Geschlossene Behälter',
  'caution.closed-container.say':
    'Schneide nie einen Tank, ein Fass oder ein Rohr, das geschlossen ist oder etwas Brennbares enthalten hat, bevor es sicher gemacht wurde.',
  'caution.closed-container.source': '29 CFR 1910.252(a)(3)',
};
