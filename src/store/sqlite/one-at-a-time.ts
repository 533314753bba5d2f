/** Runs what it is given one after the other, in the order it came; a fault of one is its own. */
export function oneAtATime(): <Done>(act: () => Promise<Done>) => Promise<Done> {
  let last: Promise<unknown> = Promise.resolve();
  return <Done>(act: () => Promise<Done>): Promise<Done> => {
    const turn = last.then(act, act);
    last = turn.catch(() => undefined);
    return turn;
  };
}
