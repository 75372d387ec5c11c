import { conditionOfDrill, primeSpeedWindow, type SpeedWindow, windowOfDrill } from '../../sim-core/index.ts';
import { createLiveSession, type LiveSession } from './live-session.ts';
import { createReplaySession, type ReplaySession } from './replay-session.ts';
import type { FromWorker, ToWorker } from './worker-messages.ts';

/**
 * Where the core runs: never on the page's own thread. One worker serves one bench or one replay, and is ended with it.
 */
const scope = self as unknown as {
  postMessage(message: FromWorker, transfer: Transferable[]): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
};

let live: LiveSession | null = null;
let replay: ReplaySession | null = null;
let window: SpeedWindow | null = null;

const post = (message: FromWorker, transfer: Transferable[] = []) => scope.postMessage(message, transfer);

function stop(): void {
  live?.stop();
  replay?.stop();
  live = null;
  replay = null;
}

function handle(message: ToWorker): void {
  switch (message.kind) {
    case 'window': {
      const condition = conditionOfDrill(message.drill);
      if (condition && message.known) primeSpeedWindow(condition, message.known);
      window = windowOfDrill(message.drill);
      post({ kind: 'window', window });
      return;
    }
    case 'cut': {
      stop();
      if (window === null) throw new Error('A run was begun before its speed window was known.');
      const { timeOriginMs } = message;
      const now = () => performance.timeOrigin - timeOriginMs + performance.now();
      live = createLiveSession({ ...message, window, now, post });
      return;
    }
    case 'replay':
      stop();
      replay = createReplaySession({ ...message, now: () => performance.now(), post });
      return;
    case 'hand':
      live?.hand(message.events);
      return;
    case 'hold':
      live?.hold(message.held, message.nowMs);
      return;
    case 'drawn':
      live?.drawn();
      replay?.drawn();
      return;
    case 'watch':
      post({ kind: 'watched', steps: live?.watch() ?? [] });
      return;
    case 'end':
      live?.end();
      return;
    case 'mark':
      live?.mark(message.diagnosis);
      return;
    case 'seek':
      replay?.seek(message.tick, message.asked);
      return;
    case 'play':
      replay?.play(message.rate);
      return;
    case 'stop':
      stop();
  }
}

scope.onmessage = (event) => {
  try {
    handle(event.data);
  } catch (error) {
    stop();
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
};
