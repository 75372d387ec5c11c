import { useEffect, useMemo, useRef, useState } from 'react';
import { Input, Label, TextArea, TextField } from 'react-aria-components';
import { callHost } from '../app/host-client.ts';
import { useAttempt } from '../app/use-attempt.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { drillShelf, NO_FILTER } from '../drills/drill-shelf.ts';
import { techniqueName } from '../drills/technique-name.ts';
import { ManyPick } from '../register/ManyPick.tsx';
import { offerFile } from '../review/offer-file.ts';
import { useSay } from '../text/use-say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';

const TITLE_LIMIT = 120;
const ABOUT_LIMIT = 1200;
/** Most drills that one pack holds. */
const MOST_DRILLS = 200;

/** How many of these versions of drills have a run that shows how they are cut; null until all are asked about. */
function useDemonstrations(hashes: readonly string[]): number | null {
  const known = useRef(new Map<string, boolean>());
  const [count, setCount] = useState<number | null>(null);
  useEffect(() => {
    let wanted = true;
    const ask = async () => {
      for (const hash of hashes) {
        if (!known.current.has(hash)) {
          const { runId } = await callHost('getDemonstration', { hash });
          known.current.set(hash, runId !== null);
        }
        if (!wanted) return;
      }
      setCount(hashes.filter((hash) => known.current.get(hash)).length);
    };
    setCount(null);
    ask().catch(tellTrouble);
    return () => {
      wanted = false;
    };
  }, [hashes]);
  return count;
}

/** Puts drills into one file that another yard takes in. */
export function PackForm() {
  const say = useSay();
  const drills = useYard((state) => state.drills);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const [title, setTitle] = useState('');
  const [about, setAbout] = useState('');
  const [said, setSaid] = useState('');
  const { busy, problem, begin } = useAttempt();
  const items = useMemo(
    () =>
      drillShelf(drills, NO_FILTER)
        .flatMap((group) => group.drills)
        .map(({ id, title: name, technique, source }) => ({
          id,
          name,
          note: say(source === 'own' ? 'packs.note.own' : 'packs.note.shipped', { technique: techniqueName(technique) }),
        })),
    [drills, say],
  );
  const picked = useMemo(() => drills.filter(({ id }) => chosen.has(id)), [drills, chosen]);
  const hashes = useMemo(() => picked.map(({ hash }) => hash), [picked]);
  const demonstrations = useDemonstrations(hashes);
  const lack =
    picked.length === 0
      ? say('packs.lack.drills')
      : picked.length > MOST_DRILLS
        ? say('packs.lack.fewer', { most: MOST_DRILLS })
        : title.trim() === ''
          ? say('packs.lack.title')
          : null;

  const save = async () => {
    setSaid('');
    const reply = await callHost('exportPack', {
      title: title.trim(),
      about: about.trim(),
      drillIds: picked.map(({ id }) => id),
    });
    offerFile(reply);
    if (reply.outcome !== 'cancelled') setSaid(say('packs.saved', { file: reply.fileName }));
  };

  return (
    <form
      className="pack-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (lack === null) void begin(save);
      }}
    >
      <ManyPick label={say('packs.drills')} items={items} chosen={chosen} onChange={setChosen} />
      <div className="pack-words">
        <TextField className="entry" value={title} onChange={setTitle} maxLength={TITLE_LIMIT}>
          <Label>{say('packs.title-field')}</Label>
          <Input className="price-input" />
        </TextField>
        <TextField className="entry" value={about} onChange={setAbout} maxLength={ABOUT_LIMIT}>
          <Label>{say('packs.about-field')}</Label>
          <TextArea className="price-input written" rows={4} />
        </TextField>
        <p className="assign-sum" role="status">
          {lack ?? say('packs.sum', { drills: picked.length, demonstrations: demonstrations ?? '…' })}
        </p>
        <Problem words={problem} />
        <div className="row-actions">
          <Action kind="main" type="submit" isDisabled={lack !== null} isWaiting={busy}>
            {busy ? say('app.wait') : say('packs.save')}
          </Action>
          <span role="status" className="soft">
            {said}
          </span>
        </div>
      </div>
    </form>
  );
}
