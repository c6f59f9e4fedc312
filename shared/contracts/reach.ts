/** From where probes and phones reach this server, and by which addresses they would. */
import { z } from 'zod';
import { brokerAddressSchema } from './keys.ts';

export const reachSchema = z.object({
  /** IPv4 addresses of the machine in its networks. */
  addresses: z.array(z.string()),
  broker: brokerAddressSchema,
  authPolicy: z.enum(['embedded', 'outside']),
  pages: z.object({
    port: z.number().int(),
    tls: z.boolean(),
    onlyHere: z.boolean(),
    /** A QR code of their address; null where the machine has no address. */
    url: z.string().nullable(),
    code: z.object({ size: z.number().int(), path: z.string() }).nullable(),
  }),
  hasOwner: z.boolean(),
});
export type Reach = z.infer<typeof reachSchema>;
