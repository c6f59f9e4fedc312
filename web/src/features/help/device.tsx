import { useHelp } from './help-texts.tsx';
import { Caution, Section } from './section.tsx';

export function Device() {
  const { text } = useHelp();
  return (
    <>
      <Section of="device.ice" />
      <Section of="device.warm" first={<Caution>{text('page-help.device.scald')}</Caution>} />
      <Section of="device.offset" />
      <Section of="device.battery" />
      <Section of="device.clean" />
    </>
  );
}
