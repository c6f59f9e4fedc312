/** A heap cut open: how much of its room is solid, how much water, how much air. */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { usePlanWords } from './use-plan-words.ts';
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

const bold = (inner: ComponentChildren) => <b>{inner}</b>;

export function Shares({ massKg, moisture, volumeL, freeAirSpace, floor }: SharesProps) {
  const id = useId();
  const { rich } = usePlanWords();
  if (freeAirSpace === null || volumeL === null || volumeL <= 0) return null;
  const air = Math.max(0, freeAirSpace);
  const water = Math.min(1 - air, (massKg * moisture) / volumeL);
  const solid = Math.max(0, 1 - air - water);
  const { solidY, waterY } = layerTops(solid, water);
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
            <i class="shares-key shares-air" />{' '}
            {rich('page-plan.shares.air', { airFrac: air, isShort: air < floor, floorFrac: floor, b: bold })}
          </li>
          <li>
            <i class="shares-key shares-water" /> {rich('page-plan.shares.water', { waterFrac: water, b: bold })}
          </li>
          <li>
            <i class="shares-key shares-solid" /> {rich('page-plan.shares.solid', { solidFrac: solid, b: bold })}
          </li>
        </ul>
      </figcaption>
    </figure>
  );
}
