/** Where there is no place yet; its probes may serve a pile of any. */
export const usualSite = 'my-yard';
