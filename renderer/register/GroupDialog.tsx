import { useMemo, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { Group } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { FormDialog } from './FormDialog.tsx';
import { ManyPick } from './ManyPick.tsx';
import { personText } from './person-text.ts';

export interface GroupDialogProps {
  /** Null = a new one. */
  group: Group | null;
  isOpen: boolean;
  onOpenChange(open: boolean): void;
  onKept(): Promise<void>;
}

/** Name and members of a group. */
export function GroupDialog({ group, isOpen, onOpenChange, onKept }: GroupDialogProps) {
  const people = useYard((state) => state.people);
  const [name, setName] = useState(group?.name ?? '');
  const [members, setMembers] = useState<ReadonlySet<string>>(new Set(group?.memberIds));
  const apprentices = useMemo(
    () => people.filter((person) => person.role === 'apprentice').map(({ id, name: shown }) => ({ id, name: personText(shown) })),
    [people],
  );
  const keep = async () => {
    await callHost('saveGroup', { groupId: group?.id ?? null, name: name.trim(), memberIds: [...members] });
    await onKept();
  };
  return (
    <FormDialog
      title={group === null ? say('groups.dialog.new') : say('groups.dialog.change', { group: group.name })}
      isOpen={isOpen}
      onOpenChange={onOpenChange}
      leave={say('groups.leave')}
      keep={say('groups.keep')}
      ready={name.trim() !== ''}
      onKeep={keep}
    >
      <TextField className="entry" value={name} onChange={setName} maxLength={60} autoFocus>
        <Label>{say('groups.name')}</Label>
        <Input className="price-input" />
      </TextField>
      <ManyPick label={say('groups.who')} items={apprentices} chosen={members} onChange={setMembers} />
    </FormDialog>
  );
}
