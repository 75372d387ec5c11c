import { goTo } from '../app/route.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

/** For whoever has no run yet: the short way to a first cut. */
export function FirstCut() {
  return (
    <section className="next-on-bench" aria-labelledby="first-cut-title">
      <div>
        <h2 id="first-cut-title">{say('first-cut.offer')}</h2>
        <p>{say('first-cut.offer-why')}</p>
      </div>
      <Action kind="main" onPress={() => goTo({ at: 'first-cut' })}>
        {say('first-cut.go')}
      </Action>
    </section>
  );
}
