import type { ReactNode } from 'react';
import type { TextKey } from '../text/en.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

export interface BindingTableProps<A extends string> {
  label: string;
  actions: readonly A[];
  /** The action whose key or button is being asked for; null while none is. */
  asking: A | null;
  asked: string;
  nameOf(action: A): string;
  onAsk(action: A): void;
  /** One sentence about the last press; null when all is well. */
  said: string | null;
  onReset(): void;
  children?: ReactNode;
}

/** What does what, one row an action, each of them to be changed where it stands. */
export function BindingTable<A extends string>(props: BindingTableProps<A>) {
  const { label, actions, asking, asked, nameOf, onAsk, said, onReset } = props;
  return (
    <>
      <p role="status" className={asking === null && said !== null ? 'notice' : 'controls-said'}>
        {asking === null ? (said ?? '') : asked}
      </p>
      <table className="keys-table binding-table" aria-label={label}>
        <thead>
          <tr>
            <th scope="col">{say('keys.action')}</th>
            <th scope="col">{say('controls.now')}</th>
            <th scope="col">
              <span className="out-of-sight">{say('keys.change')}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {actions.map((action) => {
            const name = say(`action.${action}` as TextKey);
            return (
              <tr key={action} data-action={action}>
                <th scope="row">{name}</th>
                <td>{asking === action ? '…' : nameOf(action)}</td>
                <td>
                  <Action kind="quiet" aria-label={say('controls.change', { action: name })} onPress={() => onAsk(action)}>
                    {say('keys.change')}
                  </Action>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <div>
        <Action onPress={onReset}>{say('controls.reset')}</Action>
      </div>
    </>
  );
}
