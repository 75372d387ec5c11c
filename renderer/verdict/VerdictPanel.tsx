import type { ReviewedRun } from '../review/fresh-run.ts';
import { TrustSign } from './TrustSign.tsx';
import { useTrust } from './use-trust.ts';

/** Whether the record can be trusted, and what an assessor said of it. */
export function VerdictPanel({ run }: { run: ReviewedRun }) {
  const trust = useTrust(run.id);
  return (
    <div className="verdict">
      <TrustSign trust={trust} />
    </div>
  );
}
