"""gaugerake: slab verdict, truck load, pour plan and return-to-traffic times for seamless resinous floors."""

__version__ = "0.1.0"
