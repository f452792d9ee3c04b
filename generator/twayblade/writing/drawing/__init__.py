"""Line drawings worked out from what is recorded."""
