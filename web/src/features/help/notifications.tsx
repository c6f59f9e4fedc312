import { useHelp } from './help-texts.tsx';
import { Caution, Section } from './section.tsx';

export function Notifications() {
  const { text } = useHelp();
  return (
    <>
      <Section of="notifications.states" first={<Caution>{text('page-help.notifications.fire')}</Caution>} />
      <Section of="notifications.who" />
      <Section of="notifications.when" />
      <Section of="notifications.hidden" />
      <Section of="notifications.nobody" />
    </>
  );
}
