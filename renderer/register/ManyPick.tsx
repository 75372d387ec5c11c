import { useMemo, useState } from 'react';
import { Input, Label, ListBox, ListBoxItem, ListLayout, SearchField, Virtualizer } from 'react-aria-components';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { remPx } from './rem-px.ts';

export interface ManyItem {
  id: string;
  name: string;
  /** A few words beside the name. */
  note?: string;
}

export interface ManyPickProps {
  label: string;
  items: readonly ManyItem[];
  chosen: ReadonlySet<string>;
  onChange(chosen: ReadonlySet<string>): void;
}

const ONE_LINE_REM = 2.75;
const TWO_LINES_REM = 3.5;

/** Some of many: a list of any length with a way to find in it. What was chosen stays chosen when it is out of sight. */
export function ManyPick({ label, items, chosen, onChange }: ManyPickProps) {
  const [wanted, setWanted] = useState('');
  const shown = useMemo(() => {
    const words = wanted.toLocaleLowerCase().split(/\s+/);
    return items.filter(({ name, note = '' }) => {
      const text = `${name} ${note}`.toLocaleLowerCase();
      return words.every((word) => text.includes(word));
    });
  }, [items, wanted]);
  const shownIds = useMemo(() => new Set(shown.map((item) => item.id)), [shown]);
  const select = (keys: 'all' | Set<unknown>) => {
    const outOfSight = [...chosen].filter((id) => !shownIds.has(id));
    const inSight = keys === 'all' ? [...shownIds] : [...keys].map(String);
    // What was chosen before keeps its place: the order of choosing may matter.
    const next = new Set([...outOfSight, ...inSight]);
    onChange(new Set([...[...chosen].filter((id) => next.has(id)), ...next]));
  };
  return (
    <div className="many-pick">
      <div className="many-head">
        <h3>{label}</h3>
        <span className="soft small" role="status">
          {say('many.chosen', { chosen: items.filter((item) => chosen.has(item.id)).length, all: items.length })}
        </span>
      </div>
      <div className="many-tools">
        <SearchField className="entry many-find" value={wanted} onChange={setWanted}>
          <Label className="out-of-sight">
            {say('many.find')}: {label}
          </Label>
          <Input className="price-input" placeholder={say('many.find')} />
        </SearchField>
        <Action aria-label={`${say('many.all')}: ${label}`} onPress={() => select('all')}>
          {say('many.all')}
        </Action>
        <Action aria-label={`${say('many.none')}: ${label}`} onPress={() => onChange(new Set())}>
          {say('many.none')}
        </Action>
      </div>
      <Virtualizer
        layout={ListLayout}
        layoutOptions={{ rowSize: remPx(items.some((item) => item.note) ? TWO_LINES_REM : ONE_LINE_REM) }}
      >
        <ListBox
          className="many-list"
          aria-label={label}
          items={shown}
          selectionMode="multiple"
          selectionBehavior="toggle"
          selectedKeys={[...chosen].filter((id) => shownIds.has(id))}
          onSelectionChange={select}
          renderEmptyState={() => <p className="soft many-nothing">{say('many.nothing')}</p>}
        >
          {(item) => (
            <ListBoxItem className="many-item" textValue={item.name}>
              <svg className="tick-box" viewBox="0 0 20 20" aria-hidden="true" focusable="false">
                <rect x={1.5} y={1.5} width={17} height={17} />
                <path d="M4.5 10.5l4 4 7.5-9" />
              </svg>
              <span className="many-name">
                <span>{item.name}</span>
                {item.note && <span className="soft small">{item.note}</span>}
              </span>
            </ListBoxItem>
          )}
        </ListBox>
      </Virtualizer>
    </div>
  );
}
