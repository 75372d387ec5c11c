/** Figures of the rules of the rig check. */
export const RIG_RULES = {
  /** Least filter number for plasma arc cutting below 300 A (29 CFR 1910.133(a)(5)). */
  leastShade: 8,
  /** Nothing that burns may lie nearer than this, m: 35 feet (29 CFR 1910.252(a)(2)). */
  clearanceM: 10.668,
  /** Least fire watch after the work, min (29 CFR 1910.252(a)(2)(iii)), and the one that is taught (NFPA 51B since 2019). */
  fireWatchMin: 30,
  fireWatchTaughtMin: 60,
} as const;

interface RigRuleSource {
  /** The publication and what it asks for. */
  title: string;
  /** read: the text or a page that quotes it was read for this program. memory: named from memory, not checked against its text. own: no publication. */
  basis: 'read' | 'memory' | 'own';
}

/** Where the rules of the rig check stand. */
export const RIG_RULE_SOURCES = {
  'shade-table': {
    title: '29 CFR 1910.133(a)(5), filter lenses: shade 8 at least for plasma arc cutting below 300 A',
    basis: 'read',
  },
  clothing: { title: '29 CFR 1910.252(b)(3), protective clothing for cutting', basis: 'memory' },
  noise: { title: '29 CFR 1910.95, noise: hearing protection by the daily dose', basis: 'read' },
  containers: { title: '29 CFR 1910.252(a)(3), closed or used containers are made safe before they are cut', basis: 'memory' },
  coatings: { title: '29 CFR 1915.354, coatings are taken off where hot work is done', basis: 'memory' },
  'ventilation-space': {
    title:
      '29 CFR 1910.252(c)(2), mechanical ventilation in rooms below 10 000 cubic feet (284 m3) for each person, or obstructed ones',
    basis: 'read',
  },
  'ventilation-metal': {
    title: '29 CFR 1910.252(c), fume of zinc and of stainless steel is drawn off by mechanical ventilation',
    basis: 'memory',
  },
  'fire-distance': {
    title: '29 CFR 1910.252(a)(2)(iii), things that burn within 35 feet (10.7 m) are moved, or covered and watched',
    basis: 'read',
  },
  'fire-watch': { title: '29 CFR 1910.252(a)(2)(iii), a fire watch for at least half an hour after the work', basis: 'read' },
  'fire-watch-taught': { title: 'NFPA 51B, editions from 2019 on: a fire watch for at least an hour', basis: 'memory' },
  'yard-practice': { title: 'Common practice of the trade; no publication', basis: 'own' },
  'rig-data': { title: "What this simulator's own rigs are built for", basis: 'own' },
} as const satisfies Record<string, RigRuleSource>;
export type RigRuleSourceId = keyof typeof RIG_RULE_SOURCES;
