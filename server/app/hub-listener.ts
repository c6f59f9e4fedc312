import type { HubListener } from '../../ingest/commit/intake.ts';
import type { PilePort } from '../pile/pile-port.ts';
import { hubPresses } from '../publish/hub-presses.ts';
import type { Services } from './open-services.ts';

interface HubListenerParts extends Pick<Services, 'clock' | 'log' | 'journal' | 'publishing' | 'people'> {
  /** All piles, wherever they are watched. */
  readonly watch: PilePort;
  hubCameUp(): void;
}

/** What is done about what home automation hubs say to us. */
export function hubListener({ publishing, people, hubCameUp, ...parts }: HubListenerParts): HubListener {
  return hubPresses({ ...parts, choice: publishing, trail: people.trail, cameUp: hubCameUp });
}
