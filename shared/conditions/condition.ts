/** What is declared once of each kind of condition; everything that depends on the kind is derived from it. */
import type { Position } from '../names.ts';
import type { StageLimits } from '../stage.ts';

export interface Condition {
  readonly kind: string;
  /** What it is found in: the pile, one of its probes (a finding for each position), or the word of a person. */
  readonly about: 'pile' | 'probe' | 'hand';
  /** Seen for so long before it is raised, gone for so long before it is cleared. */
  readonly delays: Delays;
  /** While one of these stands, its advice takes the place of this one's, everywhere. */
  readonly yieldsTo: readonly string[];
  readonly restsOn: Footing;
}

export interface Delays {
  readonly onDelayMs: number;
  readonly offDelayMs: number;
}

/** What its rule looks at, shown on the page that says why. */
interface Footing {
  readonly limits: readonly (keyof StageLimits)[];
  readonly positions: readonly Position[];
  /** What else is weighed beside the probes. */
  readonly also: readonly ('moisture' | 'forecast')[];
  /** Whether what was done lately changes what is expected. */
  readonly acts: boolean;
}
