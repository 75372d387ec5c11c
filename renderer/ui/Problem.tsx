import { Told } from './Told.tsx';

/** Why something did not work, beside what it is about. Nothing while there is no problem. */
export function Problem({ words }: { words: string | null }) {
  if (words === null) return null;
  return (
    <p className="entry-problem" role="alert">
      <Told words={words} />
    </p>
  );
}
