import { useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { toggleSound, useSoundState } from './use-sound.ts';

const HORN = 'M2 7h4l5-5v16l-5-5H2z';
const WAVES = 'M13 6l2-1.5q3.5 5.5 0 11L13 14q2-4 0-8z';
const BAR = 'M13 8l1.5-1.5 4.5 5-1.5 1.5zm4.5-1.5L19 8l-4.5 5L13 11.5z';

/** Sound on or off, and which it is, in words (spoken ones only where room is scarce); the key M does the same. No toggle: the name says the state. */
export function MuteButton({ wordless = false }: { wordless?: boolean }) {
  const soundOn = useYard((state) => state.settings.soundOn);
  const state = useSoundState();
  const words = say(soundOn ? 'sound.on' : 'sound.off');
  return (
    <Action
      kind="quiet"
      className="mute"
      onPress={toggleSound}
      aria-label={wordless ? words : undefined}
      aria-keyshortcuts={say('sound.key')}
      data-sound={soundOn ? state : 'muted'}
    >
      <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
        <path fill="currentColor" d={HORN} />
        <path fill="currentColor" d={soundOn ? WAVES : BAR} />
      </svg>
      {!wordless && words}
    </Action>
  );
}
