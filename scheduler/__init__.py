"""What is due: rules over the state of the herd, the plan they make, and the passes that remind and send."""
