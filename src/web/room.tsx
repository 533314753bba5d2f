import { createRootRoute, createRoute, createRouter, Navigate, RouterProvider } from "@tanstack/react-router";
import type { ReactElement } from "react";
import { Frame } from "./frame/frame.tsx";
import { NotHere } from "./frame/not-here.tsx";
import { RecordingPage } from "./recording/recording-page.tsx";
import { ReadingPage } from "./recordings/reading-page.tsx";
import { RecordingsScreen } from "./recordings/recordings-screen.tsx";
import { CalculatorPage } from "./slate/calculator-page.tsx";
import { SlateScreen } from "./slate/slate-screen.tsx";

const root = createRootRoute({ component: Frame, notFoundComponent: NotHere });
const start = createRoute({ getParentRoute: () => root, path: "/", component: () => <Navigate to="/recordings" replace /> });
const recordings = createRoute({ getParentRoute: () => root, path: "/recordings", component: RecordingsScreen });
const recording = createRoute({
  getParentRoute: () => root,
  path: "/recordings/$id",
  component: function Recording() {
    return <RecordingPage id={recording.useParams().id} />;
  },
});
const reading = createRoute({
  getParentRoute: () => root,
  path: "/recordings/$id/reading",
  component: function Reading() {
    return <ReadingPage id={reading.useParams().id} />;
  },
});
const slate = createRoute({ getParentRoute: () => root, path: "/slate", component: SlateScreen });
const calculator = createRoute({
  getParentRoute: () => root,
  path: "/slate/$name",
  // The inputs are the address: a copied link opens the same sum. They stay as typed; the calculator checks them.
  validateSearch: (search: { readonly in?: unknown }): { readonly in?: string } => (typeof search.in === "string" ? { in: search.in } : {}),
  component: function Calculator() {
    return <CalculatorPage name={calculator.useParams().name} given={calculator.useSearch().in ?? null} />;
  },
});

const router = createRouter({
  routeTree: root.addChildren([start, recordings, recording, reading, slate, calculator]),
  defaultPreload: false,
});

declare module "@tanstack/react-router" {
  interface Register {
    router: typeof router;
  }
}

export const Room = (): ReactElement => <RouterProvider router={router} />;
