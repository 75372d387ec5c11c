import { useEffect, useState } from 'react';
import type { LedgerEntry } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { momentText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { say } from '../text/say.ts';
import { momentIn, textIn } from './entry-body.ts';

/** The newest entry of a kind about the yard as a whole; null where there is none. */
async function newest(kind: 'export' | 'restore'): Promise<LedgerEntry | null> {
  const { entries } = await callHost('listLedger', { kinds: [kind], subject: 'yard', limit: 1 });
  return entries[0] ?? null;
}

/**
 * What the record says about the last backup and the last restore.
 * @param freshId changes with every backup that was made
 */
export function LastBackup({ freshId }: { freshId: string | null }) {
  const people = useYard((state) => state.people);
  const [last, setLast] = useState<{ backup: LedgerEntry | null; restore: LedgerEntry | null } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again whenever a backup is done
  useEffect(() => {
    let wanted = true;
    Promise.all([newest('export'), newest('restore')]).then(
      ([backup, restore]) => wanted && setLast({ backup, restore }),
      tellTrouble,
    );
    return () => {
      wanted = false;
    };
  }, [freshId]);
  if (last === null) return null;
  const { backup, restore } = last;
  const by = backup && people.find(({ id }) => id === backup.who)?.name;
  return (
    <>
      <p data-last-backup={backup?.seq ?? 'none'}>
        {backup === null
          ? say('backup.last.none')
          : say('backup.last', { when: momentText(backup.at), person: by ? personText(by) : say('record.stranger') })}
      </p>
      {restore && <LastRestore entry={restore} />}
    </>
  );
}

function LastRestore({ entry: { seq, at, body } }: { entry: LedgerEntry }) {
  const aside = textIn(body, 'keptAside');
  return (
    <p className="soft" data-last-restore={seq}>
      {say('backup.restored', { when: momentText(at), made: momentText(momentIn(body, 'madeAt') ?? at) })}{' '}
      {aside !== null && say('backup.kept-aside', { folder: aside })}
    </p>
  );
}
