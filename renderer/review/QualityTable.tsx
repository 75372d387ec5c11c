import { useMemo } from 'react';
import { type Drill, type KerfQuality, type QualityStretch, qualityRows, RZ5_RANGES, U_RANGES } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { figure, type QuantityUnit, quantity, type UnitSystem } from '../ui/units.ts';

/** Length of line in one row of the table, mm. */
const ROW_MM = 10;

export interface QualityTableProps {
  drill: Drill;
  quality: KerfQuality;
  units: UnitSystem;
  /** Way along the line of the place that is shown, mm. */
  shownMm: number | null;
  /** A place of the line, mm. */
  onPick(sMm: number): void;
}

interface Column {
  id: string;
  name: string;
  unit: string;
  cell(row: QualityStretch): string;
}

/** Quality per stretch of the line, with the ISO 9013 range of what has one; each row leads to its moment in the replay. */
export function QualityTable({ drill, quality, units, shownMm, onPick }: QualityTableProps) {
  const { summary, perMm } = quality;
  const cutThicknessMm = drill.plate.thicknessMm / Math.cos((drill.intended.bevelDeg * Math.PI) / 180);
  const rows = useMemo(() => qualityRows(perMm, ROW_MM, cutThicknessMm), [perMm, cutThicknessMm]);
  const caption = say('quality.table', { length: quantity(ROW_MM, 'mm', units) });
  // A groove has no faces: its depth and width stand instead.
  const columns = drill.intended.grooveDepthMm === null ? cutColumns(units) : grooveColumns(units);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that is longer than its place is scrolled by keys
    <section className="quality-scroll" tabIndex={0} aria-label={caption}>
      <table className="quality-table">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">
              {say('quality.way')} <span className="soft">{figure(1, 'mm', units).unit}</span>
            </th>
            {columns.map((column) => (
              <th key={column.id} scope="col">
                {column.name} <span className="soft">{column.unit}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr
              key={row.fromMm}
              data-uncut={row.uncutMm > 0}
              aria-current={shownMm !== null && shownMm >= row.fromMm && shownMm < row.toMm ? 'location' : undefined}
            >
              <th scope="row">
                {row.tick > 0 ? (
                  <Action
                    kind="quiet"
                    className="quality-go"
                    aria-label={say('quality.go', { way: way(row, units) })}
                    onPress={() => onPick(perMm.find(({ tick }) => tick === row.tick)?.sMm ?? row.fromMm)}
                  >
                    {way(row, units)}
                  </Action>
                ) : (
                  <span className="quality-still">{way(row, units)}</span>
                )}
              </th>
              <Cells row={row} columns={columns} />
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">{say('quality.whole')}</th>
            <Cells row={summary} columns={columns} />
          </tr>
        </tfoot>
      </table>
    </section>
  );
}

function Cells({ row, columns }: { row: QualityStretch; columns: readonly Column[] }) {
  return columns.map((column) => (
    <td key={column.id} data-column={column.id}>
      {column.cell(row)}
    </td>
  ));
}

function way(row: QualityStretch, units: UnitSystem): string {
  const end = (mm: number): string => figure(Math.round(mm), 'mm', units).value.replace(/[.,]0$/, '');
  return `${end(row.fromMm)}–${end(row.toMm)}`;
}

function cutColumns(units: UnitSystem): Column[] {
  const ranged = (value: number | null, unit: QuantityUnit, range: number | null, last: number): string => {
    const printed = figure(value, unit, units).value;
    if (value === null) return printed;
    const words = range === null ? say('quality.beyond-short', { range: last }) : say('quality.range-short', { range });
    return `${printed}\u00a0${words}`;
  };
  const withRange = (unit: QuantityUnit): string => say('quality.unit-range', { unit: unitOf(unit, units) });
  const fine = (value: number): string => figure(value, 'fine-mm', units).value;
  const none = figure(null, 'mm', units).value;
  return [
    {
      id: 'u',
      name: say('quality.column.u'),
      unit: withRange('fine-mm'),
      cell: (row) => ranged(row.uMm, 'fine-mm', row.uRange, U_RANGES),
    },
    {
      id: 'rz5',
      name: say('quality.column.rz5'),
      unit: withRange('um'),
      cell: (row) => ranged(row.rz5Um, 'um', row.rz5Range, RZ5_RANGES),
    },
    plain('top', say('quality.column.top'), 'fine-mm', units, (row) => row.topWidthMm),
    plain('bottom', say('quality.column.bottom'), 'fine-mm', units, (row) => row.bottomWidthMm),
    plain('drag', say('quality.column.drag'), 'fine-mm', units, (row) => row.dragMm),
    {
      id: 'dross',
      name: say('quality.column.dross'),
      unit: unitOf('fine-mm', units),
      cell: ({ dross, metalMm }) => {
        if (metalMm === 0) return none;
        const kind = say(`quality.dross.${dross.kind}`);
        // Where the column is narrow the height goes under the kind.
        return dross.kind === 'none' ? kind : `${kind.replaceAll(' ', '\u00a0')} ${fine(dross.mm)}`;
      },
    },
    plain('heat', say('quality.column.heat'), 'fine-mm', units, (row) => row.heatAffectedMm),
    {
      id: 'uncut',
      name: say('quality.column.uncut'),
      unit: unitOf('mm', units),
      cell: ({ uncutMm, metalMm }) =>
        metalMm === 0 ? none : uncutMm > 0 ? figure(uncutMm, 'mm', units).value : say('quality.through'),
    },
  ];
}

function grooveColumns(units: UnitSystem): Column[] {
  return [
    plain('depth', say('quality.groove-depth'), 'fine-mm', units, (row) => row.depthMm),
    plain('width', say('quality.groove-width'), 'fine-mm', units, (row) => row.topWidthMm),
    plain('heat', say('quality.column.heat'), 'fine-mm', units, (row) => row.heatAffectedMm),
  ];
}

function plain(
  id: string,
  name: string,
  unit: QuantityUnit,
  units: UnitSystem,
  value: (row: QualityStretch) => number | null,
): Column {
  return { id, name, unit: unitOf(unit, units), cell: (row) => figure(value(row), unit, units).value };
}

function unitOf(unit: QuantityUnit, units: UnitSystem): string {
  return figure(1, unit, units).unit;
}
