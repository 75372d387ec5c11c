import { useRef } from 'react';
import type { PartId } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { PartDrawing } from './PartDrawing.tsx';

/** As they lie in the box: in no order that means anything. */
const IN_THE_BOX: readonly PartId[] = ['cap', 'electrode', 'shield', 'nozzle', 'swirl-ring'];

export interface StackBenchProps {
  /** From the handle outward. */
  stack: readonly PartId[];
  onChange(stack: PartId[]): void;
}

/** The parts in their box, and those on the handle in the order in which they went on. Buttons move them; nothing is dragged. */
export function StackBench({ stack, onChange }: StackBenchProps) {
  const handle = useRef<HTMLOListElement>(null);
  const left = IN_THE_BOX.filter((part) => !stack.includes(part));

  function swap(place: number, by: -1 | 1): void {
    const next = [...stack];
    const [a, b] = [next[place], next[place + by]];
    if (a === undefined || b === undefined) return;
    next[place] = b;
    next[place + by] = a;
    onChange(next);
  }

  return (
    <div className="stack">
      <h3>{say('rig.parts.box')}</h3>
      {left.length === 0 ? (
        <p className="soft small">{say('rig.parts.box-empty')}</p>
      ) : (
        <ul className="stack-box">
          {left.map((part) => (
            <li key={part}>
              <Action
                className="stack-part"
                aria-label={say('rig.parts.put-on', { part: say(`part.${part}`) })}
                onPress={() => {
                  onChange([...stack, part]);
                  // The button that was pressed is gone: the list it went to takes the focus, and says what is on it.
                  if (left.length === 1) handle.current?.focus();
                }}
              >
                <PartDrawing part={part} />
                {say(`part.${part}`)}
              </Action>
            </li>
          ))}
        </ul>
      )}
      <h3 id="rig-handle">{say('rig.parts.handle')}</h3>
      <ol className="stack-handle" ref={handle} tabIndex={-1} aria-labelledby="rig-handle" data-stack={stack.join(' ')}>
        {stack.length === 0 && <li className="soft small stack-none">{say('rig.parts.handle-empty')}</li>}
        {stack.map((part, place) => {
          const name = say(`part.${part}`);
          return (
            <li key={part} className="stack-on">
              <PartDrawing part={part} />
              <span className="stack-name">
                {place + 1}. {name}
              </span>
              <span className="stack-moves">
                <Action
                  kind="quiet"
                  isDisabled={place === 0}
                  aria-label={say('rig.parts.inward', { part: name })}
                  onPress={() => swap(place, -1)}
                >
                  <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
                    <path fill="currentColor" d="M10 3l7 9h-5v5H8v-5H3z" />
                  </svg>
                </Action>
                <Action
                  kind="quiet"
                  isDisabled={place === stack.length - 1}
                  aria-label={say('rig.parts.outward', { part: name })}
                  onPress={() => swap(place, 1)}
                >
                  <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
                    <path fill="currentColor" d="M10 17l7-9h-5V3H8v5H3z" />
                  </svg>
                </Action>
                <Action
                  kind="quiet"
                  aria-label={say('rig.parts.take-off', { part: name })}
                  onPress={() => onChange(stack.filter((one) => one !== part))}
                >
                  {say('rig.parts.off')}
                </Action>
              </span>
            </li>
          );
        })}
      </ol>
    </div>
  );
}
