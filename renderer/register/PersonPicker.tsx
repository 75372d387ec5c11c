import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import { choosePerson, createPerson, useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

const NOBODY = 'nobody';

/** Who practises from now on, by number. */
export function PersonPicker() {
  const people = useYard((state) => state.people);
  const chosenId = useYard((state) => state.chosenId);
  return (
    <div className="person-picker">
      <Select
        className="person-select"
        value={chosenId ?? NOBODY}
        onChange={(key) => choosePerson(key === NOBODY || key === null ? null : String(key))}
      >
        <Label className="person-label">{say('home.who')}</Label>
        <Button className="action person-button">
          <SelectValue />
          <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
            <path fill="currentColor" d="M4 7h12l-6 7z" />
          </svg>
        </Button>
        <Popover className="popover person-popover">
          <ListBox className="person-list">
            {[{ id: NOBODY, name: say('home.who.nobody') }, ...people].map((person) => (
              <ListBoxItem key={person.id} id={person.id} className="person-option" textValue={person.name}>
                {person.name}
              </ListBoxItem>
            ))}
          </ListBox>
        </Popover>
      </Select>
      <Action onPress={() => createPerson('apprentice')}>{say('home.who.new')}</Action>
    </div>
  );
}
