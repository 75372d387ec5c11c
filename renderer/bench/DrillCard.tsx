import type { Drill, SpeedWindow } from '../../sim-core/index.ts';
import { hashFromRoute } from '../app/route.ts';
import { useYard } from '../app/yard-store.ts';
import { authorLanguage } from '../drills/author-language.ts';
import { DemonstrationLink } from '../drills/DemonstrationLink.tsx';
import { PlateSketch } from '../drills/PlateSketch.tsx';
import { passInShort, passRules } from '../drills/pass-rules.ts';
import { inEnglish } from '../text/in-english.ts';
import { keepTogether } from '../text/keep-together.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Told } from '../ui/Told.tsx';
import { band, quantity, thickness, type UnitSystem } from '../ui/units.ts';
import { CautionList } from './CautionList.tsx';
import type { CuePlan } from './cues-for.ts';

export interface DrillCardProps {
  drill: Drill;
  drillHash: string;
  /** Null until the core has found it. */
  window: SpeedWindow | null;
  units: UnitSystem;
  /** Attempts made before, by whoever practises; null while it is not known. */
  earlier: number | null;
  /** Cues of this attempt and of the next one. */
  plan: CuePlan;
  onStart(): void;
}

function attemptsText(drill: Drill, earlier: number | null): string {
  if (drill.attempts === null) return say('card.attempts-free');
  return say('card.attempts-left', { left: Math.max(0, drill.attempts - (earlier ?? 0)), all: drill.attempts });
}

/** What a trainee reads before the arc: purpose, task, hints, figures, cautions. */
export function DrillCard({ drill, drillHash, window, units, earlier, plan, onStart }: DrillCardProps) {
  const language = authorLanguage(useYard(({ drills }) => drills.find(({ id }) => id === drill.id)));
  const byTrainee = drill.rigCheck === 'by-trainee';
  const spent = drill.attempts !== null && earlier !== null && earlier >= drill.attempts;
  return (
    <article className="drill-card" aria-labelledby="card-title">
      <div className="card-read">
        <h1 id="card-title" lang={language}>
          {keepTogether(drill.title)}
        </h1>
        <section>
          <h2>{say('card.purpose')}</h2>
          <p lang={language}>{drill.card.purpose}</p>
        </section>
        <section>
          <h2>{say('card.task')}</h2>
          <p className="card-task" lang={language}>
            {drill.card.task}
          </p>
        </section>
        {drill.card.hints.length > 0 && (
          <section>
            <h2>{say('card.hints')}</h2>
            <ul className="card-hints" lang={language}>
              {drill.card.hints.map((hint) => (
                <li key={hint}>{hint}</li>
              ))}
            </ul>
          </section>
        )}
        <section>
          <h2>{say('card.pass-rules')}</h2>
          <ul className="card-floors">
            {passRules(drill).map((rule) => (
              <li key={rule}>{rule}</li>
            ))}
          </ul>
        </section>
        <section className="card-cautions">
          <h2 className="kerf-rule">{say('card.cautions')}</h2>
          <p lang={language}>{drill.card.onRealPlate}</p>
          <CautionList cautions={drill.card.cautions} />
          <p>
            <strong>{say('caution.always')}</strong>
          </p>
        </section>
      </div>
      <aside className="card-side">
        <PlateSketch drill={drill} />
        <h2>{say('card.figures')}</h2>
        <dl className="card-figures">
          <dt>{say('card.plate')}</dt>
          <dd>
            {say(`material.${drill.plate.material}`)}, {thickness(drill.plate.thicknessMm, units)}
          </dd>
          <dt>{say('card.rig')}</dt>
          <dd>
            {byTrainee
              ? say('card.rig-class', { class: drill.rig.class })
              : say('card.rig-value', { class: drill.rig.class, current: quantity(drill.rig.currentA, 'A', units) })}
          </dd>
          <dt>{say('card.window')}</dt>
          <dd
            className={window?.windowLowMmPerS == null ? undefined : 'figure'}
            data-window-low={window?.windowLowMmPerS ?? ''}
            data-window-high={window?.windowHighMmPerS ?? ''}
          >
            <Told words={windowText(window, units)} />
          </dd>
          {window?.edgeDwellS != null && (
            <>
              <dt>{say('card.dwell')}</dt>
              <dd>{quantity(window.edgeDwellS, 's', units)}</dd>
            </>
          )}
          <dt>{say('card.spark')}</dt>
          <dd className="figure">
            {band(drill.tolerances.sparkAngleDeg.low, drill.tolerances.sparkAngleDeg.high, 'deg', units)}
          </dd>
          <dt>{say('card.stand-off')}</dt>
          <dd className="figure">{band(drill.tolerances.standOffMm.low, drill.tolerances.standOffMm.high, 'mm', units)}</dd>
          <dt>{say('home.drill.pass')}</dt>
          <dd>{passInShort(drill)}</dd>
          <dt>{say('card.attempts')}</dt>
          <dd>{attemptsText(drill, earlier)}</dd>
        </dl>
        <div className="card-cues" data-cues={plan.now ? 'with' : 'without'}>
          <p>
            <strong>{say(plan.now ? 'card.cues.with' : 'card.cues.without')}</strong>
            {plan.why !== 'assessment' && ` ${say(plan.next ? 'card.cues.next-with' : 'card.cues.next-without')}`}
          </p>
          <p className="soft small">
            {say(`card.cues.why.${plan.why}`)} <a href={hashFromRoute({ at: 'help', topic: 'fading' })}>{say('help.fading')}</a>
          </p>
        </div>
        <Action kind="main" className="card-start" autoFocus isDisabled={window === null || spent} onPress={onStart}>
          {window === null ? say('card.start-waiting') : say(byTrainee ? 'card.start-rig' : 'card.start')}
        </Action>
        <DemonstrationLink drillHash={drillHash} />
        {window === null && (
          <p className="soft small" role="status">
            {say('bench.preparing')}
          </p>
        )}
      </aside>
    </article>
  );
}

function windowText(window: SpeedWindow | null, units: UnitSystem): string {
  if (window === null) return say('app.wait');
  if (window.windowLowMmPerS === null || window.windowHighMmPerS === null)
    return say('card.window-none', { reason: inEnglish(window.reason ?? '') });
  return band(window.windowLowMmPerS, window.windowHighMmPerS, 'mm/s', units);
}
