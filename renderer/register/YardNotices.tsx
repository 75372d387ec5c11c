import { useYard } from '../app/yard-store.ts';
import { inEnglish } from '../text/in-english.ts';
import { Told } from '../ui/Told.tsx';

/** What the host has to tell about the yard as it was opened, on whatever page somebody comes to first. */
export function YardNotices() {
  const notices = useYard((state) => state.session?.notices);
  return notices?.map((notice) => (
    <p key={notice.code + notice.message} className="notice not-printed">
      <Told words={inEnglish(notice.message)} />
    </p>
  ));
}
