/** What the server and the thread share, a number each: the id of the job that is still wanted, and whether the thread is held. */
export const wantedSignal = 0;
export const heldSignal = 1;
export const signalCount = 2;
