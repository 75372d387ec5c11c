import { useEffect, useState } from 'react';
import type { Group } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { useMe, useSignedIn } from '../register/signed-in.ts';
import { YardHead } from '../register/YardHead.tsx';
import { YardNotices } from '../register/YardNotices.tsx';
import { say } from '../text/say.ts';
import { Told } from '../ui/Told.tsx';
import { useTitle } from '../ui/use-title.ts';
import { QueueFilterBar } from './QueueFilterBar.tsx';
import { QueueTable } from './QueueTable.tsx';
import { QueueTables } from './QueueTables.tsx';
import { RunFileDrop } from './RunFileDrop.tsx';
import { type QueueFilter, useQueue, WAITING } from './use-queue.ts';

/** The assessor's room: every run that was handed in, oldest first. */
export function QueueRoom() {
  const known = useSignedIn((state) => state.me !== null);
  const me = useMe();
  useTitle(say('queue.title'));
  const staff = me !== null && me.role !== 'apprentice';
  return (
    <div className="queue">
      <YardHead />
      <main id="content" tabIndex={-1} className="queue-main">
        <h1>{say('queue.title')}</h1>
        {staff && <YardNotices />}
        {known && (staff ? <QueueList /> : <p className="notice">{say('queue.forbidden')}</p>)}
      </main>
    </div>
  );
}

function QueueList() {
  const [filter, setFilter] = useState<QueueFilter>(WAITING);
  const [groups, setGroups] = useState<readonly Group[]>([]);
  const queue = useQueue(filter);
  useEffect(() => {
    let wanted = true;
    // Without groups the queue can still be worked through.
    callHost('listGroups', {}).then(
      (reply) => wanted && setGroups(reply.groups),
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, []);
  const plain = filter.drillId === null && filter.groupId === null && filter.measureId === null;
  return (
    <>
      <p className="soft">{say('queue.lead')}</p>
      <QueueFilterBar filter={filter} groups={groups} found={queue.total} onChange={setFilter} />
      {queue.failure !== null && (
        <p role="alert">
          <Told words={queue.failure} />
        </p>
      )}
      {queue.rows.length > 0 && <QueueTable rows={queue.rows} total={queue.total} onNearEnd={queue.more} />}
      {!queue.loading && queue.failure === null && queue.rows.length === 0 && (
        <p className="soft queue-none">{say(plain && filter.state === 'waiting' ? 'queue.none' : 'queue.none-so')}</p>
      )}
      {queue.total > 0 && <QueueTables filter={filter} />}
      <RunFileDrop />
    </>
  );
}
