/** An entry could not be written; nothing that stood in the ledger was touched. */
export class WriteFailed extends Error {
  constructor(
    message: string,
    readonly help: string,
  ) {
    super(message)
  }
}

/** The one name that was wanted is taken; nothing was written. */
export class NameTaken extends WriteFailed {}
