"""The site assessment: facts resolved, checks composed, questions ranked."""
