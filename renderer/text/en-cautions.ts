/**
 * Dangers of the real work, with the published figure and where it stands. Sources: 29 CFR 1910.133(a)(5) filter shades;
 * 1910.252(a)(2)(iii) fire prevention; 1910.252(c)(2) ventilation; 1910.1026 chromium(VI); 1910.95 noise; 1910.242(b) compressed air
 * (the last from memory). NFPA 51B (2019) one-hour fire watch, from memory.
 */
export const enCautions = {
  'start.title': 'Before you begin',
  'start.lead': 'Kerfhand is practice for the hand and the eye. It does not qualify anyone to cut.',
  'start.supervised': 'Real plate is cut under supervision, by somebody who may teach it.',
  'start.manual':
    'Follow the manual of the machine in front of you, your employer’s rules and local codes. Where they say something else than this program, they are right.',
  'start.electric': 'Electrical installation is for a licensed electrician.',
  'start.screen':
    'Nothing here is dark enough, loud enough or hot enough to show the dangers. The card of each drill names them.',
  'start.go': 'Understood',

  'caution.always':
    'Follow the machine’s own manual, your employer’s rules and local codes. Electrical installation is for a licensed electrician.',
  'caution.source': 'Source: {source}',

  'caution.electric-shock.name': 'Electric shock',
  'caution.electric-shock.say':
    'The open-circuit voltage is high enough to kill. Dry gloves, dry ground, whole cables; switch off before touching torch parts.',
  'caution.electric-shock.source': 'the machine’s manual; 29 CFR 1910.254',
  'caution.eyes.name': 'Eyes and skin',
  'caution.eyes.say': 'Filter shade 8 at least, below 300 A; covered skin. Start darker and go lighter, never below 8.',
  'caution.eyes.source': '29 CFR 1910.133(a)(5)',
  'caution.fume.name': 'Fume',
  'caution.fume.say':
    'Keep the head out of the plume. Mechanical ventilation where there is less than 284 m³ (10 000 ft³) to a person or the ceiling is below 5 m (16 ft).',
  'caution.fume.source': '29 CFR 1910.252(c)(2)',
  'caution.coatings.name': 'Coatings and alloys',
  'caution.coatings.say': 'Take off paint, zinc and oil first. Stainless gives off chromium(VI): 5 µg/m³ over 8 h is the limit.',
  'caution.coatings.source': '29 CFR 1910.1026',
  'caution.noise.name': 'Noise',
  'caution.noise.say': 'Wear ear protection: 90 dBA is allowed for 8 h, and every 5 dB more halves the time.',
  'caution.noise.source': '29 CFR 1910.95',
  'caution.fire.name': 'Fire',
  'caution.fire.say':
    'Clear combustibles 10.7 m (35 ft) around. A fire watch stays 30 min after the last cut; many employers ask for 60.',
  'caution.fire.source': '29 CFR 1910.252(a)(2)(iii); NFPA 51B for 60 min',
  'caution.compressed-gas.name': 'Compressed gas',
  'caution.compressed-gas.say': 'Never blow air on a person. Cleaning air stays below 30 psi (2.1 bar), with a guard.',
  'caution.compressed-gas.source': '29 CFR 1910.242(b)',
  'caution.hot-metal.name': 'Hot metal',
  'caution.hot-metal.say':
    'A cut edge burns long after it has stopped glowing, and the piece falls. Keep feet and hoses out from under.',
  'caution.hot-metal.source': 'common practice',
  'caution.closed-container.name': 'Closed containers',
  'caution.closed-container.say':
    'Never cut a tank, drum or tube that is closed or has held anything that burns, until it has been made safe.',
  'caution.closed-container.source': '29 CFR 1910.252(a)(3)',
} as const;
