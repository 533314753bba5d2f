import { plainId, takeIn } from "../desk/shelf.ts";

const fetched = async (name: string): Promise<File> => {
  const answer = await fetch(`/examples/${encodeURIComponent(name)}`);
  if (!answer.ok) throw new Error(`the example ${name} was not served: ${answer.status}`);
  return new File([await answer.blob()], name);
};

const exampleNames = async (): Promise<readonly string[]> => {
  const answer = await fetch("/examples/list.json");
  if (!answer.ok) throw new Error(`the list of examples was not served: ${answer.status}`);
  // Written by the build.
  return (await answer.json()) as readonly string[];
};

/** The invented recordings that ship for a first click. */
export const openExamples = async (): Promise<readonly string[]> => takeIn(await Promise.all((await exampleNames()).map(fetched)));

/** An address that names an example opens it, so that a copied link to it works. */
export const openExampleNamed = async (id: string): Promise<boolean> => {
  const name = (await exampleNames()).find((one) => plainId(one) === id);
  if (name !== undefined) await takeIn([await fetched(name)]);
  return name !== undefined;
};
