import type { ReactNode } from 'react';
import type { ReviewedRun } from '../review/fresh-run.ts';
import { measureName } from '../review/score-words.ts';
import type { TraceSpec } from '../review/trace-specs.ts';
import { say } from '../text/say.ts';
import { figure, markText, scoreText, type UnitSystem } from '../ui/units.ts';

export interface CompareMarksProps {
  first: ReviewedRun;
  second: ReviewedRun;
  specs: readonly TraceSpec[];
  units: UnitSystem;
  /** Both runs' figures at the moment that is compared; NaN where there is none. */
  figures(spec: TraceSpec): readonly [number, number];
}

/** Figures at this moment and marks of the whole, in one table each. */
export function CompareMarks({ first, second, specs, units, figures }: CompareMarksProps) {
  const names = [...new Set([first, second].flatMap(({ score }) => score?.measures.map(({ id }) => id) ?? []))];
  const markOf = (run: ReviewedRun, id: string) => run.score?.measures.find((measure) => measure.id === id);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: tables that are longer than their place are scrolled by keys
    <aside className="compare-side" tabIndex={0} aria-label={say('compare.figures')}>
      <Table caption={say('compare.figures')}>
        {specs.map((spec) => {
          const [a, b] = figures(spec);
          // The unit stands once, in the head of the row; there is one even where neither run has a figure.
          const { unit } = figure(0, spec.unit, units);
          const cell = (value: number) => (Number.isFinite(value) ? figure(value, spec.unit, units).value : '–');
          return (
            <Row key={spec.name} name={`${say(`trace.${spec.name}`)},\u00a0${unit}`} cells={[cell(a), cell(b), cell(b - a)]} />
          );
        })}
      </Table>
      {(first.score || second.score) && (
        <Table caption={say('compare.marks')}>
          <Row
            name={say('compare.score')}
            cells={[
              first.score ? scoreText(first.score.score) : '–',
              second.score ? scoreText(second.score.score) : '–',
              first.score && second.score ? apart(scoreText(first.score.score), scoreText(second.score.score)) : '–',
            ]}
          />
          {names.map((id) => {
            const a = markOf(first, id);
            const b = markOf(second, id);
            return (
              <Row
                key={id}
                name={measureName(id)}
                cells={[
                  a ? markText(a.mark, a.mustReach) : '–',
                  b ? markText(b.mark, b.mustReach) : '–',
                  a && b ? apart(markText(a.mark, a.mustReach), markText(b.mark, b.mustReach)) : '–',
                ]}
              />
            );
          })}
        </Table>
      )}
      <p className="small soft">{say('compare.keys')}</p>
      <p className="small soft">{say('compare.silent')}</p>
    </aside>
  );
}

/** Difference of two whole figures as they are shown, so that the row adds up. */
function apart(first: string, second: string): string {
  const whole = Number(second) - Number(first);
  return whole > 0 ? `+${whole}` : whole < 0 ? `−${-whole}` : '0';
}

function Table({ caption, children }: { caption: string; children: ReactNode }) {
  return (
    <table className="cost-table compare-table">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{say('compare.figure')}</th>
          <th scope="col">{say('compare.first')}</th>
          <th scope="col">{say('compare.second')}</th>
          <th scope="col">{say('compare.difference')}</th>
        </tr>
      </thead>
      <tbody>{children}</tbody>
    </table>
  );
}

function Row({ name, cells }: { name: string; cells: readonly string[] }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      {cells.map((cell, n) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the columns of a row never change places
        <td key={n}>{cell}</td>
      ))}
    </tr>
  );
}
