"""What the browser reads beside the pages: data for the finder, for several codes and for the plan."""
