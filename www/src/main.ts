import './components/lab-sheet'
import { keepForOffline, takeLaunched } from './offline/offline'

keepForOffline()
takeLaunched()
