import type { Reply, Request, Verb } from '../../electron/contract.ts';
import type { Connection } from '../../electron/host/caller.ts';
import type { Host } from '../../electron/host/host.ts';

/** The reply of a call that must be answered. */
export type Ask = <V extends Verb>(verb: V, request: Request<V>) => Promise<Reply<V>>;

/** Calls as one page makes them; without a connection, on the host's own. */
export function asking(host: Host, connection?: Connection): Ask {
  return async <V extends Verb>(verb: V, request: Request<V>) => {
    const answer = await host.call(verb, request, connection);
    if (!answer.ok) throw new Error(`${verb}: ${answer.error.code}: ${answer.error.message}`);
    return answer.reply as Reply<V>;
  };
}
