import { isValidElement, type ReactElement, type ReactNode, type Ref } from 'react';

type Props = Record<string, unknown> & { children?: ReactNode; ref?: Ref<unknown> };

/** Every element of what a component gave, itself first; the components in it are not asked for theirs. */
export function elementsOf(node: ReactNode): ReactElement<Props>[] {
  if (Array.isArray(node)) return node.flatMap(elementsOf);
  if (!isValidElement<Props>(node)) return [];
  return [node, ...elementsOf(node.props.children)];
}

/** Gives each element that is looked after by an object ref something to stand for it, as a document would. */
export function stand(node: ReactNode, made: (element: ReactElement<Props>) => unknown): void {
  for (const element of elementsOf(node)) {
    const { ref } = element.props;
    if (typeof ref === 'object' && ref !== null) ref.current = made(element);
  }
}
