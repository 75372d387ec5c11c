import { Label, ProgressBar } from 'react-aria-components';

export interface ProgressProps {
  label: string;
  /** Of `total`; total 0 = not known yet. */
  done: number;
  total: number;
}

/** How far long work has come. */
export function Progress({ label, done, total }: ProgressProps) {
  const share = total > 0 ? Math.min(1, done / total) : 0;
  return (
    <ProgressBar className="progress" value={share * 100} isIndeterminate={total === 0}>
      {({ valueText }) => (
        <>
          <div className="progress-head">
            <Label>{label}</Label>
            <span className="figure">{total > 0 && valueText}</span>
          </div>
          <div className="progress-track">
            <div className="progress-part" style={{ width: `${share * 100}%` }} />
          </div>
        </>
      )}
    </ProgressBar>
  );
}
