import { goTo } from '../app/route.ts';
import { useYard } from '../app/yard-store.ts';
import { FIRST_CUT_DRILL } from '../bench/first-cut.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { thickness } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';

/** For whoever has no run yet: the short way to a first cut. */
export function FirstCut() {
  const units = useUnits();
  const drills = useYard((state) => state.drills);
  const steelMm = drills.find(({ id }) => id === FIRST_CUT_DRILL)?.thicknessMm ?? Number.NaN;
  return (
    <section className="next-on-bench" aria-labelledby="first-cut-title">
      <div>
        <h2 id="first-cut-title">{say('first-cut.offer')}</h2>
        <p>{say('first-cut.offer-why', { thickness: thickness(steelMm, units) })}</p>
      </div>
      <Action kind="main" onPress={() => goTo({ at: 'first-cut' })}>
        {say('first-cut.go')}
      </Action>
    </section>
  );
}
