"""Long runs behind `sh deploy/manage soak`, a module each."""
