import type { Drill, DrillGuide } from '../../sim-core/index.ts';
import { guideOffsetMm } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Choice } from '../ui/Choice.tsx';
import { Pick } from '../ui/Pick.tsx';
import { BandEntry } from './BandEntry.tsx';
import { edit } from './builder-store.ts';
import { LINE_SHAPES, withShape } from './line-shapes.ts';
import { turnRound } from './move-line.ts';
import { NumberEntry } from './NumberEntry.tsx';

const STARTS = ['edge', 'contact-pierce', 'rolling-pierce', 'stand-off-pierce'] as const;
const FINISHES = ['run-off', 'stop', 'close'] as const;
const GUIDES = ['freehand', 'straight-edge', 'template', 'circle'] as const;
/** Radius that a circle guide is first set to, mm; the nearest turn of the line has the last word. */
const FIRST_RADIUS_MM = 30;

const intended = (part: Partial<Drill['intended']>, about: string | null = null) =>
  edit((drill) => ({ ...drill, intended: { ...drill.intended, ...part } }), about);

function guideOf(kind: (typeof GUIDES)[number], drill: Drill): DrillGuide {
  if (kind === 'freehand') return { kind };
  if (kind === 'circle') return { kind, radiusMm: FIRST_RADIUS_MM };
  const side = 'side' in drill.guide ? drill.guide.side : 'right';
  return { kind, side, offsetMm: guideOffsetMm(drill.rig.shield) };
}

/** What is cut along: where the line begins from, how it is started, guided and ended. */
export function LineForm({ drill }: { drill: Drill }) {
  const { guide, intended: aim } = drill;
  const { grooveDepthMm, grooveWidthMm, speedMmPerS, travelAngleDeg } = aim;
  return (
    <>
      <fieldset className="entry-group">
        <legend className="entry-label">{say('builder.line.shape')}</legend>
        <div className="entry-row entry-wrap">
          {LINE_SHAPES.map((shape) => (
            <Action key={shape} onPress={() => edit((now) => withShape(now, shape))}>
              {say(`builder.shape.${shape}`)}
            </Action>
          ))}
          <Action isDisabled={drill.leadInMm > 0} onPress={() => edit(turnRound)}>
            {say('builder.line.turn-round')}
          </Action>
        </div>
      </fieldset>
      <Pick
        label={say('builder.line.start')}
        value={drill.start}
        options={STARTS.map((id) => ({ value: id, label: say(`builder.start.${id}`) }))}
        onChange={(start) => edit((now) => ({ ...now, start }))}
      />
      <Pick
        label={say('builder.line.finish')}
        value={drill.finish}
        options={FINISHES.map((id) => ({ value: id, label: say(`builder.finish.${id}`) }))}
        onChange={(finish) => edit((now) => ({ ...now, finish }))}
      />
      <NumberEntry
        label={say('builder.line.lead-in')}
        value={drill.leadInMm}
        unit="mm"
        low={0}
        high={200}
        onChange={(leadInMm) => edit((now) => ({ ...now, leadInMm }), 'lead-in')}
      />
      <Pick
        label={say('builder.line.guide')}
        value={guide.kind}
        options={GUIDES.map((id) => ({ value: id, label: say(`builder.guide.${id}`) }))}
        onChange={(kind) => edit((now) => ({ ...now, guide: guideOf(kind, now) }))}
      />
      {'side' in guide && (
        <Choice
          label={say('builder.line.side')}
          value={guide.side}
          options={[
            { value: 'left', label: say('builder.side.left') },
            { value: 'right', label: say('builder.side.right') },
          ]}
          onChange={(side) => edit((now) => ({ ...now, guide: { ...guide, side } }))}
        />
      )}
      <div className="entry-row">
        <NumberEntry
          label={say('builder.line.bevel')}
          value={aim.bevelDeg}
          unit="deg"
          low={-45}
          high={45}
          onChange={(bevelDeg) => intended({ bevelDeg }, 'bevel')}
        />
        <NumberEntry
          label={say('builder.line.passes')}
          value={aim.passes}
          low={1}
          high={4}
          step={1}
          onChange={(passes) => intended({ passes }, 'passes')}
        />
      </div>
      {speedMmPerS && (
        <BandEntry
          label={say('builder.aim.speed')}
          value={speedMmPerS}
          unit="mm/s"
          low={0.5}
          high={300}
          onChange={(value) => intended({ speedMmPerS: value }, 'aim-speed')}
        />
      )}
      {grooveDepthMm && (
        <BandEntry
          label={say('builder.aim.depth')}
          value={grooveDepthMm}
          unit="mm"
          low={0.02}
          high={20}
          onChange={(value) => intended({ grooveDepthMm: value }, 'aim-depth')}
        />
      )}
      {grooveWidthMm && (
        <BandEntry
          label={say('builder.aim.width')}
          value={grooveWidthMm}
          unit="mm"
          low={0.2}
          high={40}
          onChange={(value) => intended({ grooveWidthMm: value }, 'aim-width')}
        />
      )}
      {travelAngleDeg && (
        <BandEntry
          label={say('builder.aim.lean')}
          value={travelAngleDeg}
          unit="deg"
          low={-70}
          high={70}
          onChange={(value) => intended({ travelAngleDeg: value }, 'aim-lean')}
        />
      )}
    </>
  );
}
