/** A command that publishes a first reading, made for this server's broker. */
export function publishLine(brokerUrl: string, root: string, site: string, probe: string, pageHost: string): string {
  const { host, port } = brokerAddress(brokerUrl, pageHost);
  const payload = '{"temperature": 24.5, "humidity": 98}';
  return `npx mqtt pub -h ${host} -p ${port} -q 1 -t ${root}/${site}/${probe}/reading -m '${payload}'`;
}

/** Whether such a line works on this machine only. */
export const isOnlyHere = (line: string): boolean => /-h (127\.|localhost |\[::1\])/.test(line);

/** A broker that listens everywhere is reached by the name this page was reached by. */
export function brokerAddress(brokerUrl: string, pageHost: string): { host: string; port: string } {
  const parts = /^(?:[a-z]+:\/\/)?(?:[^@/]*@)?(\[[^\]]+\]|[^:/]+)(?::(\d+))?/i.exec(brokerUrl);
  const named = parts?.[1] ?? pageHost;
  const everywhere = ['0.0.0.0', '[::]', '::', '*'].includes(named);
  return {
    host: everywhere ? pageHost : named,
    port: parts?.[2] ?? (/^(mqtts|ssl|tls)/i.test(brokerUrl) ? '8883' : '1883'),
  };
}
