import { useVirtualizer } from '@tanstack/react-virtual';
import { memo, type ReactNode, type RefCallback, type RefObject, useEffect, useMemo, useRef, useState } from 'react';
import { spokenLanguage } from '../text/language.ts';
import { say } from '../text/say.ts';
import { remPx } from './rem-px.ts';
import { usePrinting } from './use-printing.ts';

export interface TableColumn<T> {
  id: string;
  head: string;
  /** The heading is for screen readers only, as over a column of buttons. */
  headOutOfSight?: boolean;
  /** Names the row. */
  isRowHead?: boolean;
  toRight?: boolean;
  /** What the column is sorted by; null sorts last either way. Without it the column is not sorted. */
  sortBy?(row: T): number | string | null;
  show(row: T): ReactNode;
}

export interface VirtualTableProps<T> {
  label: string;
  columns: readonly TableColumn<T>[];
  rows: readonly T[];
  keyOf(row: T): string;
  /** Attributes of a row for tests and styles. */
  marksOf?(row: T): Record<`data-${string}`, string>;
  /** Rows there are in all, where not all of them are given yet. */
  total?: number;
  /** The end of the rows that are given comes into sight: more are wanted. */
  onNearEnd?(): void;
}

interface SortOrder {
  columnId: string;
  falling: boolean;
}

/** Up to here every row is drawn: nothing is gained by drawing fewer. */
const ALL_DRAWN = 40;
const ROW_REM = 2.9;
/** More rows are asked for when this few are left below. */
const NEAR_END = 30;

function compare(a: number | string | null, b: number | string | null): number {
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  return String(a).localeCompare(String(b), spokenLanguage());
}

export function sortedRows<T>(rows: readonly T[], column: TableColumn<T> | undefined, falling: boolean): readonly T[] {
  const { sortBy } = column ?? {};
  if (!sortBy) return rows;
  return rows.toSorted((left, right) => {
    const [a, b] = [sortBy(left), sortBy(right)];
    if (a === null || b === null) return Number(a === null) - Number(b === null);
    return falling ? compare(b, a) : compare(a, b);
  });
}

/** A table of any length: of a long one only the rows in sight are drawn. Headings sort, by pointer and by key. */
export function VirtualTable<T>({ label, columns, rows, keyOf, marksOf, total, onNearEnd }: VirtualTableProps<T>) {
  const frame = useRef<HTMLElement>(null);
  const printing = usePrinting();
  const [order, setOrder] = useState<SortOrder | null>(null);
  const sorted = useMemo(
    () =>
      order === null
        ? rows
        : sortedRows(
            rows,
            columns.find((column) => column.id === order.columnId),
            order.falling,
          ),
    [rows, columns, order],
  );
  const long = sorted.length > ALL_DRAWN;
  const whole = printing || !long;
  // A frame that scrolls has a name and is reached by key; one that does not is nothing of its own.
  const Frame = long ? 'section' : 'div';
  const virtual = useVirtualizer({
    count: sorted.length,
    getScrollElement: () => frame.current,
    estimateSize: () => remPx(ROW_REM),
    overscan: 12,
    enabled: !whole,
  });
  const drawn = whole ? sorted.map((_, index) => index) : virtual.getVirtualItems().map((item) => item.index);
  const items = virtual.getVirtualItems();
  const lastDrawn = drawn.at(-1) ?? -1;
  const nearEnd = rows.length > 0 && lastDrawn >= rows.length - NEAR_END;
  useEffect(() => {
    if (nearEnd) onNearEnd?.();
  }, [nearEnd, onNearEnd]);
  const above = whole ? 0 : (items[0]?.start ?? 0);
  const below = whole ? 0 : virtual.getTotalSize() - (items.at(-1)?.end ?? 0);
  return (
    <Frame
      className={long ? 'table-frame table-frame-long' : 'table-frame'}
      ref={frame as RefObject<HTMLDivElement | null>}
      tabIndex={long ? 0 : undefined}
      aria-label={long ? say('table.frame', { label }) : undefined}
    >
      <table className="run-table" aria-label={label} aria-rowcount={Math.max(sorted.length, total ?? 0) + 1}>
        <thead>
          <tr>
            {columns.map((column) => (
              <HeadCell key={column.id} column={column} order={order} onSort={setOrder} />
            ))}
          </tr>
        </thead>
        <tbody>
          {above > 0 && <Gap px={above} />}
          {drawn.map((index) => {
            const row = sorted[index] as T;
            return (
              <Row
                key={keyOf(row)}
                row={row}
                index={index}
                columns={columns as readonly TableColumn<unknown>[]}
                marksOf={marksOf as VirtualTableProps<unknown>['marksOf']}
                measure={whole ? undefined : virtual.measureElement}
              />
            );
          })}
          {below > 0 && <Gap px={below} />}
        </tbody>
      </table>
    </Frame>
  );
}

interface RowProps extends Pick<VirtualTableProps<unknown>, 'columns' | 'marksOf'> {
  row: unknown;
  index: number;
  measure: RefCallback<HTMLTableRowElement> | undefined;
}

function sameRow(before: RowProps, after: RowProps): boolean {
  return before.row === after.row && before.index === after.index && before.columns === after.columns;
}

/** A row is drawn once while it is in sight, however the table is scrolled under it. */
const Row = memo(function Row({ row, index, columns, marksOf, measure }: RowProps) {
  return (
    <tr aria-rowindex={index + 2} data-index={index} ref={measure} {...marksOf?.(row)}>
      {columns.map((column) => (
        <Cell key={column.id} column={column} row={row} />
      ))}
    </tr>
  );
}, sameRow);

/** Stands for the rows that are not drawn. */
function Gap({ px }: { px: number }) {
  return (
    <tr className="table-gap">
      <td style={{ height: px }} />
    </tr>
  );
}

function Cell<T>({ column, row }: { column: TableColumn<T>; row: T }) {
  const className = column.toRight ? 'to-right' : undefined;
  if (column.isRowHead) {
    return (
      <th scope="row" className={className}>
        {column.show(row)}
      </th>
    );
  }
  return <td className={className}>{column.show(row)}</td>;
}

interface HeadCellProps<T> {
  column: TableColumn<T>;
  order: SortOrder | null;
  onSort(order: SortOrder | null): void;
}

/** First press: rising; second: falling; third: as it came. */
function HeadCell<T>({ column, order, onSort }: HeadCellProps<T>) {
  const mine = order?.columnId === column.id ? order : null;
  const className = column.toRight ? 'to-right' : undefined;
  if (!column.sortBy) {
    return (
      <th scope="col" className={className}>
        {column.headOutOfSight ? <span className="out-of-sight">{column.head}</span> : column.head}
      </th>
    );
  }
  const turn = () =>
    onSort(mine === null ? { columnId: column.id, falling: false } : mine.falling ? null : { ...mine, falling: true });
  return (
    <th scope="col" className={className} aria-sort={mine === null ? 'none' : mine.falling ? 'descending' : 'ascending'}>
      <button type="button" className="sort-head" title={say('table.sort')} onClick={turn}>
        {column.head}
        <svg viewBox="0 0 12 20" aria-hidden="true" focusable="false">
          {mine?.falling !== true && <path fill="currentColor" d="M6 2l5 7H1z" opacity={mine ? 1 : 0.45} />}
          {mine?.falling !== false && <path fill="currentColor" d="M6 18l5-7H1z" opacity={mine ? 1 : 0.45} />}
        </svg>
      </button>
    </th>
  );
}
