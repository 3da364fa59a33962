import './components/lab-sheet'
