/** How well a damp bed conducts heat, of a middling bed. */

/** [W m⁻¹ K⁻¹]: Ahn et al. 2009 give 0.12-0.81 for sawdust, soil blends and manures, 0.03-0.30 for straws; within it our own choice. */
export const branConductivityWmK = 0.28;
export const soilConductivityWmK = 0.5;
