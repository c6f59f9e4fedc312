/**
 * Aedes, but what one client does not fetch holds up nobody else.
 *
 * aedes 1 waits for a full socket to drain before a message counts as delivered (its lib/write.js), up to a minute, and
 * until then does not read on from whoever sent it: one listener that stopped reading would silence the probes. Here
 * nothing waits for it. What may pile up is bounded instead: the reading gate stops reading from a sender that does not
 * fetch its acknowledgements, and what is to be forwarded to one who does not read is left out (authorizeForward).
 * tests/ingest/embedded-broker-limits.test.ts fails should aedes ever change this.
 */
import type { Client } from 'aedes';

type Fetching = Client & { waitForDrain(done: (error: Error | null, client: Client) => void): void };

export function neverWaitFor(client: Client): void {
  (client as Fetching).waitForDrain = (done) => void setImmediate(done, null, client);
}
