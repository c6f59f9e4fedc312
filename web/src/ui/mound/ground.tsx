/** The ground a pile lies on, hatched as in a section. */
import { drawing } from './mound-shape.ts';

export function Ground() {
  const { groundY } = drawing;
  const strokes = Array.from({ length: 27 }, (_, i) => {
    const x = 6 + i * 8.2;
    const length = 5 + ((i * 7) % 5);
    return `M${x} ${groundY + 2.5}l${-length * 0.7} ${length}`;
  });
  return (
    <g class="mound-ground">
      <path d={strokes.join('')} class="mound-hatch" />
      <path d={`M0 ${groundY}H230`} />
    </g>
  );
}
