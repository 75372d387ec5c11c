import type { CautionId } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';

/** Dangers of the real work that a drill touches, each with its figure and where that stands. */
export function CautionList({ cautions }: { cautions: readonly CautionId[] }) {
  return (
    <ul className="caution-list">
      {cautions.map((id) => (
        <li key={id}>
          <strong>{say(`caution.${id}.name`)}.</strong> {say(`caution.${id}.say`)}{' '}
          <span className="soft small">{say('caution.source', { source: say(`caution.${id}.source`) })}</span>
        </li>
      ))}
    </ul>
  );
}
