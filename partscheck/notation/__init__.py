"""How the trade writes things - measures, threads, bolt circles, sizes, marks - as values and back."""
