import { type ClampSpot, type Drill, SURFACES } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Tick } from '../ui/Tick.tsx';
import { edit, useBuilder } from './builder-store.ts';
import { addStraight, addTurn, reshapeTurn } from './move-line.ts';
import { NumberEntry } from './NumberEntry.tsx';
import { focusNear } from './PlanHandle.tsx';
import { apartMm, jointsOf, type PlanPoint } from './path-joints.ts';
import { placeName } from './place-words.ts';
import { addClamp, addOpening, addSupport, BESIDE_MM, movePlace, type PlanPlace, placesOf, removePlace } from './plan-places.ts';

const middleOf = (drill: Drill): PlanPoint => ({
  xMm: Math.round(drill.plate.lengthMm / 2),
  yMm: Math.round(drill.plate.widthMm / 2),
});

const TOOLS = {
  straight: (drill: Drill) => addStraight(drill),
  turn: addTurn,
  support: (drill: Drill) => addSupport(drill, middleOf(drill)),
  clamp: (drill: Drill) => addClamp(drill, { xMm: drill.plate.lengthMm - 10, yMm: 10 }),
  opening: (drill: Drill) => addOpening(drill, middleOf(drill)),
} as const;

/** Puts something on the plan and takes hold of it, so that the arrow keys move it at once. */
function put(tool: keyof typeof TOOLS): void {
  const before = new Set(placesOf(useBuilder.getState().history.present).map((place) => place.id));
  edit(TOOLS[tool]);
  const added = placesOf(useBuilder.getState().history.present).find((place) => !before.has(place.id));
  if (!added) return;
  useBuilder.setState({ place: added.id });
  requestAnimationFrame(() => document.querySelector<SVGElement>(`[data-place="${added.id}"]`)?.focus());
}

/** What can be put on the plan, and the exact figures of the place in hand. */
export function PlanTools({ drill }: { drill: Drill }) {
  const held = useBuilder((state) => state.place);
  const place = placesOf(drill).find((one) => one.id === held);
  return (
    <div className="plan-tools">
      {/* biome-ignore lint/a11y/useSemanticElements: buttons in a row, not fields of a form */}
      <div role="group" aria-label={say('builder.plan.put')} className="entry-row entry-wrap">
        {(Object.keys(TOOLS) as (keyof typeof TOOLS)[]).map((tool) => (
          <Action key={tool} onPress={() => put(tool)}>
            {say(`builder.put.${tool}`)}
          </Action>
        ))}
      </div>
      <section className="plan-inhand" aria-label={say('builder.plan.in-hand')}>
        {place ? <PlaceInHand key={place.id} drill={drill} place={place} /> : <p className="soft">{say('builder.plan.none')}</p>}
      </section>
    </div>
  );
}

function PlaceInHand({ drill, place }: { drill: Drill; place: PlanPlace }) {
  const index = Number(place.id.split('-')[1]);
  const move = (part: Partial<PlanPoint>) =>
    edit((now) => movePlace(now, place.id, { xMm: place.xMm, yMm: place.yMm, ...part }), `place ${place.id}`);
  const { plate, rig, path } = drill;
  const spot = place.kind === 'clamp' ? rig.clampSpots[index] : undefined;
  const arc = place.kind === 'centre' ? path.segments[index] : undefined;
  const spots = (part: Partial<ClampSpot>) =>
    edit((now) => ({
      ...now,
      rig: { ...now.rig, clampSpots: now.rig.clampSpots.with(index, { ...(spot as ClampSpot), ...part }) },
    }));
  return (
    <>
      <h3>{placeName(place)}</h3>
      <div className="entry-row">
        <NumberEntry
          label={say('builder.place.x')}
          value={place.xMm}
          unit="mm"
          low={-BESIDE_MM}
          high={plate.lengthMm + BESIDE_MM}
          onChange={(xMm) => move({ xMm })}
        />
        <NumberEntry
          label={say('builder.place.y')}
          value={place.yMm}
          unit="mm"
          low={-BESIDE_MM}
          high={plate.widthMm + BESIDE_MM}
          onChange={(yMm) => move({ yMm })}
        />
        {arc?.kind === 'arc' && (
          <>
            <NumberEntry
              label={say('builder.turn.radius')}
              value={apartMm(jointsOf(path)[index] as PlanPoint, arc.centre)}
              unit="mm"
              low={2}
              high={300}
              onChange={(radiusMm) => edit((now) => reshapeTurn(now, index, { radiusMm }), `place ${place.id}`)}
            />
            <NumberEntry
              label={say('builder.turn.sweep')}
              value={arc.sweepDeg}
              unit="deg"
              low={-360}
              high={360}
              onChange={(sweepDeg) => edit((now) => reshapeTurn(now, index, { sweepDeg }), `place ${place.id}`)}
            />
          </>
        )}
        {spot && (
          <>
            <Pick
              label={say('builder.clamp.surface')}
              value={spot.surface}
              options={SURFACES.map((id) => ({ value: id, label: say(`surface.${id}`) }))}
              onChange={(surface) => spots({ surface })}
            />
            <Tick label={say('builder.rig.falls')} isSelected={spot.onDrop} onChange={(onDrop) => spots({ onDrop })} />
          </>
        )}
        <Action
          className="plan-remove"
          onPress={() => {
            edit((now) => removePlace(now, place.id));
            requestAnimationFrame(() => {
              // What took over its name is in hand now, with the same button; else the button is gone.
              if (document.activeElement === document.body) focusNear(place.id);
            });
          }}
        >
          {say('builder.place.remove')}
        </Action>
      </div>
    </>
  );
}
