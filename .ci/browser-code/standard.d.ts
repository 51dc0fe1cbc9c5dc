// What the checker's own library says less of than holds.

interface Array<T> {
  /** `filter(Boolean)` leaves out what is nothing. */
  filter(is: BooleanConstructor): Exclude<T, null | undefined | false | 0 | "">[];
}
