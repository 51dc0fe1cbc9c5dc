/** By which a link says that it carries a shared state; what the state is, `shared-state.js` reads. */

export const NAME = "state";

/** Whether a fragment has a state. @param {string} hash with its `#`, as `location` has it */
export function hasState(hash) {
  return hash.startsWith(`#${NAME}=`);
}
