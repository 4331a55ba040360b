/** What can't be done, in the user's words, and a way out; printed without a stack trace. */
export class UserError extends Error {
  constructor(
    message: string,
    readonly help = '',
  ) {
    super(message)
  }
}
