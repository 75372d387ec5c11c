import type { CautionId, Drill, SpeedWindow } from '../../sim-core/index.ts';
import { useYard } from '../app/yard-store.ts';
import { PlateSketch } from '../drills/PlateSketch.tsx';
import { controlWords } from '../input/control-names.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { thickness, type UnitSystem } from '../ui/units.ts';
import { CautionList } from './CautionList.tsx';

const STEPS = ['bring', 'hold', 'along', 'let-go'] as const;
/** What hurts first on real plate; the drill's own card has all of them. */
const CAUTIONS: readonly CautionId[] = ['eyes', 'electric-shock', 'fire'];

export interface FirstCutCardProps {
  drill: Drill;
  window: SpeedWindow | null;
  units: UnitSystem;
  onStart(): void;
}

/** The card of somebody's very first cut: four movements, the cautions that matter, and off. The bench says the rest as it comes. */
export function FirstCutCard({ drill, window, units, onStart }: FirstCutCardProps) {
  const controls = controlWords(useYard((state) => state.settings.hand));
  return (
    <article className="first-card" aria-labelledby="card-title">
      <h1 id="card-title">{say('first-cut.title')}</h1>
      <p className="first-lead">
        {say('first-cut.lead', {
          material: say(`material.${drill.plate.material}`),
          thickness: thickness(drill.plate.thicknessMm, units),
        })}
      </p>
      <div className="first-columns">
        <ol className="first-steps">
          {STEPS.map((step) => (
            <li key={step}>{say(`first-cut.step.${step}`, controls)}</li>
          ))}
        </ol>
        <PlateSketch drill={drill} />
      </div>
      <Action kind="main" className="card-start" autoFocus isDisabled={window === null} onPress={onStart}>
        {say(window === null ? 'card.start-waiting' : 'card.start')}
      </Action>
      <section className="card-cautions">
        <h2 className="kerf-rule">{say('card.cautions')}</h2>
        <p>
          <strong>{say('start.supervised')}</strong> {say('caution.always')}
        </p>
        <CautionList cautions={CAUTIONS} />
      </section>
    </article>
  );
}
