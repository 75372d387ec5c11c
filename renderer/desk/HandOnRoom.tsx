import { useEffect, useRef, useState } from 'react';
import { errorWords } from '../app/error-words.ts';
import { onlyLatest } from '../app/only-latest.ts';
import { YardPage } from '../register/YardPage.tsx';
import { say } from '../text/say.ts';
import { Told } from '../ui/Told.tsx';
import { useTitle } from '../ui/use-title.ts';
import { forgetWaiting, useWaiting } from './bring-file.ts';
import { FileChoice } from './FileChoice.tsx';
import { IncomingPreview } from './IncomingPreview.tsx';
import { type IncomingDrills, readIncoming } from './incoming-drills.ts';
import { PackForm } from './PackForm.tsx';

const ROLES_HERE = ['instructor'] as const;
const KINDS_HERE = ['pack', 'drill'] as const;

/** Drills out to other yards and in from them. */
export function HandOnRoom() {
  return (
    <YardPage roles={ROLES_HERE}>
      <HandOn />
    </YardPage>
  );
}

function HandOn() {
  useTitle(say('packs.title'));
  return (
    <main id="content" tabIndex={-1} className="home-main desk-room">
      <div>
        <h1>{say('packs.title')}</h1>
        <p className="soft">{say('packs.lead')}</p>
      </div>
      <TakeIn />
      <section aria-labelledby="packs-out">
        <h2 id="packs-out" className="kerf-rule">
          {say('packs.out')}
        </h2>
        <PackForm />
      </section>
    </main>
  );
}

function TakeIn() {
  const waiting = useWaiting(KINDS_HERE);
  const [incoming, setIncoming] = useState<{ read: IncomingDrills; number: number } | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [reading, setReading] = useState<string | null>(null);
  const begin = useRef(onlyLatest());
  useEffect(() => {
    if (waiting === null) return;
    forgetWaiting();
    setProblem(null);
    setReading(waiting.file.name);
    const isLatest = begin.current();
    readIncoming(waiting).then(
      (read) => {
        if (!isLatest()) return;
        setReading(null);
        setIncoming((before) => ({ read, number: (before?.number ?? 0) + 1 }));
      },
      (error: unknown) => {
        if (!isLatest()) return;
        setReading(null);
        setIncoming(null);
        const reason = errorWords(error);
        setProblem(say('packs.unread', { file: waiting.file.name, reason }));
      },
    );
  }, [waiting]);
  return (
    <section aria-labelledby="packs-in">
      <h2 id="packs-in" className="kerf-rule">
        {say('packs.in')}
      </h2>
      <FileChoice choose={say(incoming === null ? 'packs.choose' : 'packs.choose-other')} about={say('packs.drop')} />
      <p role="status">{reading !== null && say('packs.reading', { file: reading })}</p>
      {problem !== null && (
        <p className="notice" role="alert">
          <Told words={problem} />
        </p>
      )}
      {incoming && <IncomingPreview key={incoming.number} incoming={incoming.read} onLeave={() => setIncoming(null)} />}
    </section>
  );
}
