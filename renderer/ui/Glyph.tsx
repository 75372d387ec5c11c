const PATHS = {
  play: 'M5 3l12 7-12 7z',
  'play-back': 'M15 3L3 10l12 7z',
  pause: 'M4 3h4v14H4zm8 0h4v14h-4z',
  'tick-back': 'M14 3v14L6 10zM3 3h2v14H3z',
  'tick-on': 'M6 3v14l8-7zm9 0h2v14h-2z',
  'jump-back': 'M10 3v14L2 10zm8 0v14l-8-7z',
  'jump-on': 'M2 3v14l8-7zm8 0v14l8-7z',
  lamp: 'M10 2a5 5 0 0 0-3 9v3h6v-3a5 5 0 0 0-3-9zM7.5 15.5h5V18h-5z',
  pin: 'M3 5h14v10H3zm2 6v2h10v-2z',
} as const;

export type GlyphName = keyof typeof PATHS;

/** A small drawn sign beside or inside a button; the button carries its name as text. */
export function Glyph({ name }: { name: GlyphName }) {
  return (
    <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
      <path fill="currentColor" fillRule="evenodd" d={PATHS[name]} />
    </svg>
  );
}
