/** Who may do what: the roles of people, and what a route asks for. */
import { z } from 'zod';

/** Each may do everything that those before it may. */
export const roles = ['viewer', 'keeper', 'owner'] as const;
export const roleSchema = z.enum(roles);
export type Role = z.infer<typeof roleSchema>;

/** What a route asks of whoever calls it; `open` asks nothing, or wants a secret of its own in the address. */
const accesses = ['open', ...roles] as const;
const accessSchema = z.enum(accesses);
export type Access = z.infer<typeof accessSchema>;

/** @param role Undefined for somebody who is not known. */
export function isAllowed(role: Role | undefined, access: Access): boolean {
  if (access === 'open') return true;
  return role !== undefined && roles.indexOf(role) >= roles.indexOf(access);
}

/** What an API token may do: read everything, keep the journal and the piles too, or all that its owner may. */
export const scopes = ['read', 'keep', 'own'] as const;
export const scopeSchema = z.enum(scopes);
export type Scope = z.infer<typeof scopeSchema>;

const roleOfScope = { read: 'viewer', keep: 'keeper', own: 'owner' } as const satisfies Record<Scope, Role>;

/** A token never may more than the person who made it. */
export function roleWithin(role: Role, scope: Scope): Role {
  const most = roleOfScope[scope];
  return roles.indexOf(most) < roles.indexOf(role) ? most : role;
}

/** Who acts without being anybody by name: this machine before there is an owner, and the token of the environment. */
export const namelessIds: readonly string[] = ['here', 'api-token'];

/** How somebody became known: signed in, by an API token, or by asking from this machine while there is no owner yet. */
const channelsKnown = ['session', 'token', 'here'] as const;

/** By which a row of the audit trail came; a hub is no person. */
export const auditedWays = [...channelsKnown, 'hub', 'nobody'] as const;

export const personSchema = z.object({
  id: z.string(),
  name: z.string(),
  role: roleSchema,
  via: z.enum(channelsKnown),
  /** That they chose, of those that there are; absent where they leave it to their browser. */
  language: z.string().optional(),
});
export type Person = z.infer<typeof personSchema>;
