/** What stands beside the stage and over it: fetched behind what the first picture takes. */
import '../desk/desk-review'
import './calliper-panel'
import './figures-table'
import './findings-panel'
import './font-panel'
import './key-help'
import './letter-panel'
