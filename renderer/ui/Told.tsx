import { splitAtEnglish } from '../text/in-english.ts';

/** Words of which some may be of the host or the core: these are told to readers of the screen as English. */
export function Told({ words }: { words: string | null }) {
  return splitAtEnglish(words ?? '').map((part, n) => {
    if (n % 2 === 0) return part;
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: parts of one sentence are told apart by their order alone
      <span key={n} lang="en">
        {part}
      </span>
    );
  });
}
