import { goTo } from '../app/route.ts';
import { changeSettings, useYard } from '../app/yard-store.ts';
import { placeNow, scaleOf } from '../input/hand-scale.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

const NOBODY = 'nobody';
const MOST_KEPT = 500;

/** Before the first visit to a bench: would you measure your hand? It stands beside the card and can be passed over for good. */
export function HandOffer() {
  const known = useYard((state) => state.session !== null);
  const hand = useYard((state) => state.settings.hand);
  const personId = useYard((state) => state.chosenId);
  const who = personId ?? NOBODY;
  const place = placeNow();
  const measured = (['mouse', 'pen'] as const).some((device) => scaleOf(hand, personId, device, place) !== null);
  if (!known || measured || hand.notAsked.includes(who)) return null;
  return (
    <aside className="hand-offer" aria-label={say('hand.title')}>
      <p>{say('hand.offer')}</p>
      <Action onPress={() => goTo({ at: 'hand' })}>{say('hand.offer.go')}</Action>
      <Action
        kind="quiet"
        onPress={() => void changeSettings({ hand: { ...hand, notAsked: [...hand.notAsked, who].slice(-MOST_KEPT) } })}
      >
        {say('hand.offer.skip')}
      </Action>
    </aside>
  );
}
