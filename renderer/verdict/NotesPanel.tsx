import { useState } from 'react';
import { TICK_HZ } from '../../sim-core/index.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { clock } from '../ui/units.ts';
import type { Notes } from './use-notes.ts';
import { WrittenField } from './WrittenField.tsx';

export interface NotesPanelProps {
  notes: Notes;
  /** Moment of the replay, in ticks. */
  tick: number;
  ready: boolean;
  writes: boolean;
  onGo(tick: number): void;
}

/** Notes pinned to moments of the run: each leads there, and a new one is pinned to the moment that is shown. */
export function NotesPanel({ notes: { notes, add }, tick, ready, writes, onGo }: NotesPanelProps) {
  const [text, setText] = useState('');
  const { busy, problem, begin } = useAttempt();

  const pin = () => add(tick, text.trim()).then(() => setText(''));

  return (
    <div className="notes">
      {notes.length === 0 ? (
        <p className="soft">{say('notes.none')}</p>
      ) : (
        <ul className="note-list">
          {notes.map((note) => {
            const time = clock(note.tick / TICK_HZ);
            return (
              <li key={note.id} className="note" data-note-tick={note.tick}>
                <Action
                  className="note-go figure"
                  isDisabled={!ready}
                  aria-label={say('notes.go', { time, text: note.text })}
                  onPress={() => onGo(note.tick)}
                >
                  {time}
                </Action>
                <div>
                  <p className="given-reasons">{note.text}</p>
                  <p className="small soft">{say('notes.by', { person: personText(note.name), when: momentText(note.at) })}</p>
                </div>
              </li>
            );
          })}
        </ul>
      )}
      {writes && (
        <form
          className="verdict-form"
          onSubmit={(event) => {
            event.preventDefault();
            if (text.trim() !== '') void begin(pin);
          }}
        >
          <WrittenField
            label={say('notes.write', { time: clock(tick / TICK_HZ) })}
            about={say('notes.about')}
            value={text}
            onChange={setText}
          />
          <Problem words={problem} />
          <Action type="submit" isDisabled={text.trim() === ''} isWaiting={busy}>
            {say('notes.add')}
          </Action>
        </form>
      )}
    </div>
  );
}
