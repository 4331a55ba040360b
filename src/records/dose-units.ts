/** The units that a dose is kept in: per ground area or leaf wall area, and for a volume of spray. */
export const RATE_UNITS = ['kg/ha', 'L/ha', 'kg/ha leaf wall', 'L/ha leaf wall'] as const
export const CONCENTRATION_UNITS = ['g/L', 'mL/L', '%'] as const
