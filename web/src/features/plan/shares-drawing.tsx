/** A heap cut open: how much of its room is solid, how much water, how much air. */
import { useId } from 'preact/hooks';
import { plainNumber } from '../../ui/format/temperature.ts';
import './plan.css';

/** Outline of a low mound, 200 by 80. */
const mound = 'M4 78Q22 14 100 12T196 78Z';
const topY = 12;
const floorY = 78;

/** Where each layer begins, from the floor up, so that its share of the height is its share of the room. */
export function layerTops(solid: number, water: number): { solidY: number; waterY: number } {
  const height = floorY - topY;
  return { solidY: floorY - solid * height, waterY: floorY - (solid + water) * height };
}

interface SharesProps {
  readonly massKg: number;
  readonly moisture: number;
  readonly volumeL: number | null;
  readonly freeAirSpace: number | null;
  readonly floor: number;
}

export function Shares({ massKg, moisture, volumeL, freeAirSpace, floor }: SharesProps) {
  const id = useId();
  if (freeAirSpace === null || volumeL === null || volumeL <= 0) return null;
  const air = Math.max(0, freeAirSpace);
  const water = Math.min(1 - air, (massKg * moisture) / volumeL);
  const solid = Math.max(0, 1 - air - water);
  const { solidY, waterY } = layerTops(solid, water);
  const percent = (share: number) => `${plainNumber(share * 100, 0)}\u00a0%`;
  return (
    <figure class="shares">
      <svg viewBox="0 0 200 80" aria-hidden="true">
        <clipPath id={id}>
          <path d={mound} />
        </clipPath>
        <g clip-path={`url(#${id})`}>
          <rect class="shares-air" x="0" y="0" width="200" height="80" />
          <rect class="shares-water" x="0" y={waterY} width="200" height={80 - waterY} />
          <rect class="shares-solid" x="0" y={solidY} width="200" height={80 - solidY} />
        </g>
        <path class="shares-outline" d={mound} />
      </svg>
      <figcaption>
        <ul>
          <li>
            <i class="shares-key shares-air" /> Air <b>{percent(air)}</b> of the room
            {air < floor ? `, less than the ${percent(floor)} it should keep` : ''}
          </li>
          <li>
            <i class="shares-key shares-water" /> Water <b>{percent(water)}</b>
          </li>
          <li>
            <i class="shares-key shares-solid" /> Solids <b>{percent(solid)}</b>
          </li>
        </ul>
      </figcaption>
    </figure>
  );
}
