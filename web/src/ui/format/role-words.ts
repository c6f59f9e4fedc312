/** Roles in words. */
import type { Role } from '../../../../shared/person.ts';

export const roleNames: Record<Role, string> = { owner: 'Owner', keeper: 'Keeper', viewer: 'Viewer' };
