"""The hood on its wall: height, bracket, fasteners, lifting."""
