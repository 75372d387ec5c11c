import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Gauge } from '../ui/Gauge.tsx';
import { quantity, type UnitSystem } from '../ui/units.ts';
import { CARD_CORNER_MM, CARD_LENGTH_MM, CARD_WIDTH_MM } from './card-size.ts';

const LOW = 2;
const HIGH = 10;
const STEP = 0.02;

export interface ScreenStepProps {
  pxPerMm: number;
  /** Already settled: the outline is folded away. */
  settled: boolean;
  units: UnitSystem;
  onChange(pxPerMm: number): void;
  onSettle(settled: boolean): void;
}

const px = (value: number) => say('hand.screen.px', { px: Math.round(value) });

/** An outline on the screen is brought to the size of a card held against it. */
export function ScreenStep({ pxPerMm, settled, units, onChange, onSettle }: ScreenStepProps) {
  if (settled) {
    return (
      <p className="hand-settled">
        {say('hand.screen.done', { px: Math.round(pxPerMm * CARD_LENGTH_MM) })}
        <Action kind="quiet" onPress={() => onSettle(false)}>
          {say('hand.screen.change')}
        </Action>
      </p>
    );
  }
  return (
    <>
      <p>{say('hand.screen.say')}</p>
      <div className="hand-outline">
        <svg
          role="img"
          width={CARD_LENGTH_MM * pxPerMm}
          height={CARD_WIDTH_MM * pxPerMm}
          viewBox={`0 0 ${CARD_LENGTH_MM} ${CARD_WIDTH_MM}`}
          aria-label={say('hand.screen.outline', {
            long: quantity(CARD_LENGTH_MM, 'fine-mm', units),
            wide: quantity(CARD_WIDTH_MM, 'fine-mm', units),
          })}
        >
          <rect x={0.2} y={0.2} width={CARD_LENGTH_MM - 0.4} height={CARD_WIDTH_MM - 0.4} rx={CARD_CORNER_MM} />
        </svg>
      </div>
      <Gauge
        label={say('hand.screen.gauge')}
        value={pxPerMm}
        low={LOW}
        high={HIGH}
        step={STEP}
        markEvery={2}
        words={(value) => px(value * CARD_LENGTH_MM)}
        mark={(value) => String(Math.round(value * CARD_LENGTH_MM))}
        onChange={onChange}
      />
      <div>
        <Action kind="main" onPress={() => onSettle(true)}>
          {say('hand.screen.keep')}
        </Action>
      </div>
    </>
  );
}
