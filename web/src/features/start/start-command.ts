/** What starts the server again so that others reach it; pure. */
export const letIn = ['both', 'probes', 'phones'] as const;
export type LetIn = (typeof letIn)[number];
export const startedBy = ['shell', 'powershell', 'service'] as const;
export type StartedBy = (typeof startedBy)[number];

/** Of server/deploy/branhearth.service. */
const restartService = ['sudo', 'systemctl', 'restart', 'branhearth'].join(' ');
const forProbes = [['BRANHEARTH_MQTT_HOST', '0.0.0.0']] as const;
const forPhones = [
  ['BRANHEARTH_HOST', '0.0.0.0'],
  ['BRANHEARTH_PLAIN_HTTP', 'on-a-trusted-network'],
] as const;

/** @param hasCertificate The pages speak TLS already, so that nothing has to be said of plain HTTP. */
export function startCommand(who: LetIn, how: StartedBy, hasCertificate: boolean): string {
  const settings = [
    ...(who === 'phones' ? [] : forProbes),
    ...(who === 'probes' ? [] : forPhones.slice(0, hasCertificate ? 1 : 2)),
  ];
  if (how === 'service') return [...settings.map(([name, value]) => `${name}=${value}`), restartService].join('\n');
  if (how === 'powershell')
    return [...settings.map(([name, value]) => `$env:${name}="${value}"`), 'npm start'].join('; ');
  return [...settings.map(([name, value]) => `${name}=${value}`), 'npm start'].join(' ');
}
