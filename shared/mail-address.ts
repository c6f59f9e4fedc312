/** What is taken as an e-mail address: one, and nothing that could end a header or begin another. */
const local = '[^\\s@<>,;:"()[\\]\\\\]{1,64}';
const domain = '[A-Za-z0-9](?:[A-Za-z0-9.-]{0,251}[A-Za-z0-9])?';

export const mailAddressPattern = new RegExp(`^${local}@${domain}$`);
/** The same, or with a name before it: "Farm <alarms@farm.example>". */
export const mailboxPattern = new RegExp(`^(?:[^<>\\p{Cc}"]{1,80} <${local}@${domain}>|${local}@${domain})$`, 'u');
