import { useYard } from '../app/yard-store.ts';
import { controlWords } from '../input/control-names.ts';
import type { TextKey } from '../text/en.ts';
import { isTextKey, say } from '../text/say.ts';

const ROWS = ['move', 'height', 'lean', 'trigger', 'set-speed', 'fine', 'view', 'head', 'mute', 'end'] as const;
const DEVICES = ['mouse', 'keyboard', 'gamepad', 'pen'] as const;

function cell(row: string, device: string, controls: Record<string, string>): string {
  const key = `keys.${row}.${device}`;
  const words = isTextKey(key) ? say(key, controls) : say('keys.none');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Every control of the bench, by device, as they are set. */
export function KeysTable() {
  const controls = controlWords(useYard((state) => state.settings.hand));
  return (
    <table className="keys-table">
      <thead>
        <tr>
          <th scope="col">{say('keys.action')}</th>
          {DEVICES.map((device) => (
            <th key={device} scope="col">
              {say(`keys.${device}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {ROWS.map((row) => (
          <tr key={row}>
            <th scope="row">{say(`keys.${row}` as TextKey)}</th>
            {DEVICES.map((device) => (
              <td key={device}>{cell(row, device, controls)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
