import { useState } from 'react';
import { TICK_HZ } from '../../sim-core/index.ts';
import { errorWords } from '../app/error-words.ts';
import { momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
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
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);

  async function pin(): Promise<void> {
    if (text.trim() === '' || busy) return;
    setBusy(true);
    setProblem(null);
    try {
      await add(tick, text.trim());
      setText('');
    } catch (error) {
      setProblem(errorWords(error));
    } finally {
      setBusy(false);
    }
  }

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
            void pin();
          }}
        >
          <WrittenField
            label={say('notes.write', { time: clock(tick / TICK_HZ) })}
            about={say('notes.about')}
            value={text}
            onChange={setText}
          />
          {problem !== null && (
            <p className="entry-problem" role="alert">
              <Told words={problem} />
            </p>
          )}
          <Action type="submit" isDisabled={text.trim() === ''} isWaiting={busy}>
            {say('notes.add')}
          </Action>
        </form>
      )}
    </div>
  );
}
