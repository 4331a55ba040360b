/** What is wrong with a typed text, and how to fix it. */
export interface Fault {
  message: string
  help: string
}

/** A fault with the name of its finding. */
export interface NamedFault extends Fault {
  name: string
}

/** What was read from a typed text, or what is wrong with it. */
export type Read<T, F = Fault> = (T & { fault?: undefined }) | ({ [K in keyof T]?: undefined } & { fault: F })

export const fault = (message: string, help: string): { fault: Fault } => ({ fault: { message, help } })
