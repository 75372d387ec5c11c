import { useRef, useState } from 'react';
import type { KeptHandScale } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Choice } from '../ui/Choice.tsx';
import { quantity, type UnitSystem } from '../ui/units.ts';
import { CARD_LENGTH_MM, RULER_MM } from './card-size.ts';
import { type MeasuredHand, measureHand } from './hand-strokes.ts';
import { ScaleResult } from './ScaleResult.tsx';
import { type Strokes, useStrokes } from './use-strokes.ts';

export type NewScale = Pick<
  KeptHandScale,
  'device' | 'pxPerMm' | 'spread' | 'acceleration' | 'raw' | 'restTiltXDeg' | 'restTiltYDeg'
>;

export interface HandStepProps {
  units: UnitSystem;
  onKeep(scale: NewScale): void;
}

/** Three strokes of the hand along a known length. */
export function HandStep({ units, onKeep }: HandStepProps) {
  const [device, setDevice] = useState<KeptHandScale['device']>('mouse');
  const [along, setAlong] = useState<'card' | 'ruler'>('card');
  return (
    <>
      <div className="hand-choices">
        <Choice<KeptHandScale['device']>
          label={say('hand.device')}
          value={device}
          onChange={setDevice}
          options={[
            { value: 'mouse', label: say('hand.device.mouse') },
            { value: 'pen', label: say('hand.device.pen') },
          ]}
        />
        <Choice<'card' | 'ruler'>
          label={say('hand.along')}
          value={along}
          onChange={setAlong}
          options={[
            { value: 'card', label: say('hand.along.card', { length: quantity(CARD_LENGTH_MM, 'fine-mm', units) }) },
            { value: 'ruler', label: say('hand.along.ruler', { length: quantity(RULER_MM, 'mm', units) }) },
          ]}
        />
      </div>
      <StrokeField
        key={`${device} ${along}`}
        device={device}
        lengthMm={along === 'card' ? CARD_LENGTH_MM : RULER_MM}
        onKeep={onKeep}
      />
    </>
  );
}

interface StrokeFieldProps {
  device: KeptHandScale['device'];
  lengthMm: number;
  onKeep(scale: NewScale): void;
}

function StrokeField({ device, lengthMm, onKeep }: StrokeFieldProps) {
  const field = useRef<HTMLElement>(null);
  const strokes = useStrokes(field, device);
  const { done, next, fault, rest } = strokes;
  const measured: MeasuredHand | null = next === null ? measureHand(done, lengthMm) : null;
  return (
    <>
      <p>{say(`hand.stroke.${device}`)}</p>
      <section
        ref={field}
        className="hand-field"
        aria-label={say('hand.field')}
        tabIndex={-1}
        data-strokes={done.length}
        data-drawing={strokes.drawing}
        data-locked={strokes.locked}
      >
        <p className="hand-next">{say(next === null ? 'hand.stroke.all' : `hand.stroke.${next}`)}</p>
        <p role="status">{fault === null ? fieldWords(device, strokes) : say(`hand.fault.${fault}`)}</p>
        {device === 'mouse' && !strokes.locked && next !== null && (
          <Action onPress={strokes.hold}>{say('hand.field.click')}</Action>
        )}
      </section>
      {strokes.refused && (
        <p className="notice" role="alert">
          {say('hand.field.refused')}
        </p>
      )}
      {measured && (
        <ScaleResult
          measured={measured}
          strokes={done}
          raw={device === 'mouse' && strokes.raw}
          device={device}
          onAgain={() => {
            strokes.again();
            // The result is gone, with the button that was pressed.
            field.current?.focus();
          }}
          onKeep={() =>
            onKeep({
              device,
              ...measured,
              raw: device === 'mouse' && strokes.raw,
              restTiltXDeg: device === 'pen' ? rest.xDeg : 0,
              restTiltYDeg: device === 'pen' ? rest.yDeg : 0,
            })
          }
        />
      )}
    </>
  );
}

function fieldWords(device: KeptHandScale['device'], { drawing, locked, next }: Strokes): string {
  if (next === null) return '';
  if (drawing) return say('hand.field.drawing');
  if (device === 'pen') return say('hand.field.pen');
  return locked ? say('hand.field.esc') : '';
}
