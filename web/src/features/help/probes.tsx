import { type Position, positions } from '../../../../shared/names.ts';
import { useHelp } from './help-texts.tsx';
import { HandDrawing, ProbeDrawing } from './probe-drawing.tsx';
import { Caution, Section } from './section.tsx';
import './help.css';

export function Probes() {
  const { text } = useHelp();
  return (
    <>
      <Section of="probes.where" first={<Caution>{text('page-help.probes.hot')}</Caution>}>
        <ul class="help-cards">
          {positions.map((position) => (
            <Place key={position} position={position} />
          ))}
        </ul>
      </Section>
      <Section of="probes.which" />
      <Section of="probes.cable" />
      <Section of="probes.turn" />
      <Section of="probes.hand">
        <div class="help-drawing">
          <HandDrawing words={text('page-help.probes.draw.hand')} />
        </div>
      </Section>
    </>
  );
}

function Place({ position }: { readonly position: Position }) {
  const { text } = useHelp();
  return (
    <li>
      <ProbeDrawing position={position} words={text(`page-help.probes.draw.${position}`)} />
      <h3 class="help-card-title">{text(`page-help.place.${position}`)}</h3>
      <p>{text(`page-help.probes.where.${position}`)}</p>
    </li>
  );
}
