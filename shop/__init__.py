"""Project package and base app: shop, people, price rules, customers, vehicles, labour, jobs. Imports no other app."""
