import { useEffect, useState } from 'react';
import type { LedgerEntry } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { tellTrouble } from '../app/yard-store.ts';
import { momentText } from '../register/dates.ts';
import { say } from '../text/say.ts';
import { textIn } from './entry-body.ts';

/** What the record says about the last time that the yard was restored. */
export function LastBackup({ freshId }: { freshId: string | null }) {
  const [restored, setRestored] = useState<LedgerEntry | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again whenever a backup is done
  useEffect(() => {
    let wanted = true;
    callHost('listLedger', { kinds: ['restore'], limit: 1 }).then(
      ({ entries }) => wanted && setRestored(entries[0] ?? null),
      tellTrouble,
    );
    return () => {
      wanted = false;
    };
  }, [freshId]);
  if (restored === null) return null;
  const aside = textIn(restored.body, 'keptAside');
  return (
    <p className="soft" data-last-restore={restored.seq}>
      {say('backup.restored', {
        when: momentText(restored.at),
        made: momentText(textIn(restored.body, 'madeAt') ?? restored.at),
      })}{' '}
      {aside !== null && say('backup.kept-aside', { folder: aside })}
    </p>
  );
}
