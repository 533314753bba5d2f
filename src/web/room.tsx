import { createRootRoute, createRoute, createRouter, lazyRouteComponent, Navigate, RouterProvider } from "@tanstack/react-router";
import { type ReactElement, useEffect } from "react";
import { Frame } from "./frame/frame.tsx";
import { NotHere } from "./frame/not-here.tsx";
import { RecordingsScreen } from "./recordings/recordings-screen.tsx";

/** Each of these screens is fetched by itself; until it is here the page before stays. */
const screens = {
  recording: () => import("./recording/recording-page.tsx"),
  reading: () => import("./recordings/reading-page.tsx"),
  slate: () => import("./slate/slate-screen.tsx"),
  calculator: () => import("./slate/calculator-page.tsx"),
} as const;

const root = createRootRoute({ component: Frame, notFoundComponent: NotHere });
const start = createRoute({ getParentRoute: () => root, path: "/", component: () => <Navigate to="/recordings" replace /> });
const recordings = createRoute({ getParentRoute: () => root, path: "/recordings", component: RecordingsScreen });
const recording = createRoute({
  getParentRoute: () => root,
  path: "/recordings/$id",
  component: lazyRouteComponent(async () => {
    const { RecordingPage } = await screens.recording();
    return { default: () => <RecordingPage id={recording.useParams().id} /> };
  }),
});
const reading = createRoute({
  getParentRoute: () => root,
  path: "/recordings/$id/reading",
  component: lazyRouteComponent(async () => {
    const { ReadingPage } = await screens.reading();
    return { default: () => <ReadingPage id={reading.useParams().id} /> };
  }),
});
const slate = createRoute({ getParentRoute: () => root, path: "/slate", component: lazyRouteComponent(screens.slate, "SlateScreen") });
const calculator = createRoute({
  getParentRoute: () => root,
  path: "/slate/$name",
  // The inputs are the address: a copied link opens the same sum. They stay as typed; the calculator checks them.
  validateSearch: (search: { readonly in?: unknown }): { readonly in?: string } => (typeof search.in === "string" ? { in: search.in } : {}),
  component: lazyRouteComponent(async () => {
    const { CalculatorPage } = await screens.calculator();
    return { default: () => <CalculatorPage name={calculator.useParams().name} given={calculator.useSearch().in ?? null} /> };
  }),
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

/** What does not come now is asked for again, and missed aloud, when its screen is opened. */
const fetchAll = (): void => {
  for (const fetch of Object.values(screens)) fetch().catch(() => undefined);
};

/** Once nothing else is to do the other screens are fetched: whoever opens one waits for nothing, even if the server has gone. */
const useOtherScreens = (): void =>
  useEffect(() => {
    // Safari has no word for being idle.
    const timer = setTimeout(() => ("requestIdleCallback" in window ? window.requestIdleCallback(fetchAll) : fetchAll()), 300);
    return () => clearTimeout(timer);
  }, []);

export const Room = (): ReactElement => {
  useOtherScreens();
  return <RouterProvider router={router} />;
};
