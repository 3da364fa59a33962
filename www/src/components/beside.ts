import { LitElement } from 'lit'
import { session } from '../session'

/** What stands beside the stage: it is drawn when its turn has come. */
export class Beside extends LitElement {
  protected override async scheduleUpdate(): Promise<void> {
    await session.turns.beside
    super.scheduleUpdate()
  }
}
