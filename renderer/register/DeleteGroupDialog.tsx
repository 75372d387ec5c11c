import type { Group } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import { say } from '../text/say.ts';
import { Problem } from '../ui/Problem.tsx';
import { titlesWords } from './assignment-words.ts';
import { FormDialog } from './FormDialog.tsx';
import { useAssignments } from './use-yard-lists.ts';

export interface DeleteGroupDialogProps {
  group: Group;
  onOpenChange(open: boolean): void;
  onDeleted(): Promise<void>;
}

/** Says what becomes of members and assignments before a group goes. */
export function DeleteGroupDialog({ group, onOpenChange, onDeleted }: DeleteGroupDialogProps) {
  const assignments = useAssignments();
  const isLookedUp = assignments.value === null && assignments.problem === null;
  const open = (assignments.value ?? []).filter((one) => one.withdrawnAt === null && one.groupIds.includes(group.id));
  const shared = open.filter(({ groupIds, personIds }) => groupIds.length + personIds.length > 1);
  const alone = open.filter((one) => !shared.includes(one));
  return (
    <FormDialog
      title={say('groups.delete.title', { group: group.name })}
      isOpen
      onOpenChange={onOpenChange}
      leave={say('groups.delete.leave')}
      keep={say('groups.delete.keep')}
      ready={assignments.value !== null}
      waits={isLookedUp}
      onKeep={async () => {
        await callHost('deleteGroup', { groupId: group.id });
        await onDeleted();
      }}
    >
      <p>{say('groups.delete.about')}</p>
      <div className="dialog-found" role="status">
        {isLookedUp && <p>{say('groups.delete.looking')}</p>}
        {alone.length > 0 && (
          <p>
            <strong>{say('groups.delete.withdrawn', { titles: titlesWords(alone) })}</strong>
          </p>
        )}
        {shared.length > 0 && <p>{say('groups.delete.stay', { titles: titlesWords(shared) })}</p>}
        {assignments.value !== null && open.length === 0 && <p>{say('groups.delete.nothing')}</p>}
      </div>
      <Problem words={assignments.problem} />
    </FormDialog>
  );
}
