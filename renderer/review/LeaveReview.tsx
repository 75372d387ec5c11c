import { goTo } from '../app/route.ts';
import { useMe } from '../register/signed-in.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

/** Out of the review: staff to what waits for a decision, everybody else home. */
export function LeaveReview() {
  const role = useMe()?.role;
  const staff = role === 'assessor' || role === 'instructor';
  return (
    <Action kind="quiet" onPress={() => goTo({ at: staff ? 'queue' : 'home' })}>
      {say(staff ? 'queue.open-it' : 'review.home')}
    </Action>
  );
}
