import { BoardForm } from './board-form.tsx';
import { useHelp } from './help-texts.tsx';
import { Caution, Section } from './section.tsx';
import { WiringDrawing } from './wiring-drawing.tsx';
import './help.css';

export function Probe() {
  const { text } = useHelp();
  return (
    <>
      <Section of="probe.parts" />
      <Section of="probe.wiring" first={<Caution>{text('page-help.probe.mains')}</Caution>}>
        <div class="help-pair">
          <WiringDrawing withSoil={false} words={text('page-help.probe.draw.chip')} />
          <WiringDrawing withSoil words={text('page-help.probe.draw.soil')} />
        </div>
      </Section>
      <Section of="probe.power" first={<Caution>{text('page-help.probe.lithium')}</Caution>} />
      <Section of="probe.seal" first={<Caution>{text('page-help.probes.hot')}</Caution>} />
      <Section of="probe.file">
        <BoardForm />
      </Section>
      <Section of="probe.tried" />
    </>
  );
}
